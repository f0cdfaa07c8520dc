/** Stands beside everything that is said of rules. */
export const ruleNotice =
  'No legal advice. The rules here were put down from their text where it says so, else from pages that quote them or from memory: check the text of the rule, and who answers for it where you are.';
