/** Stands beside everything that is said of rules. */
export const ruleNotice =
  'No legal advice. The rules here were put down from pages that quote them, some figures from memory, as is said beside each rule: check the text of the rule, and who answers for it where you are.';
