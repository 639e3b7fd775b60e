export { day } from "../src/words/day";
export { language } from "../src/words/locale";
export { money } from "../src/words/money";
export { decimalMark, figure } from "../src/words/number";
