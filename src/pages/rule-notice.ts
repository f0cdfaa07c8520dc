/** Stands beside everything that is said of rules. */
export const ruleNotice =
  'No legal advice. These rules were put down from pages that quote them, some figures from memory, as each line says: check the text of the rule, and who answers for it where you are.';
