/** Months with a value that a rule for signals or a limit needs; below it charts show points alone (common practice). */
export const fewestPoints = 10
