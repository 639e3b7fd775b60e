import { phrase } from "../words/phrase";

// hitWords says which of the rules that hold gives a table's answer.
export function hitWords(hit: string | undefined): string {
  switch (hit) {
    case "first":
      return phrase("The first rule that holds answers, in the order of the file.");
    case "priority":
      return phrase("Of all rules that hold the one with the strongest answer counts, in limits the mildest.");
    case "collect":
      return phrase("Every rule that holds answers for itself.");
    case "unique":
      return phrase("Only one rule may hold; two are refused.");
    case "any":
      return phrase("Several rules may hold if they say the same.");
    default:
      return hit ?? "";
  }
}
