export { language } from "../src/words/locale";
export { decimalMark, figure } from "../src/words/number";
