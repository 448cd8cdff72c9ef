/** What a spreadsheet takes for the start of a formula: the signs, their full-width forms, and the blanks it skips before them. */
const formulaStart = /^[=+\-@\t\r\n＝＋－＠]/

const negativeNumber = /^-\d+(\.\d+)?$/

/**
 * A text as a spreadsheet may read it: one that it would run as a formula begins with an apostrophe. A negative number is
 * no formula and stays a number.
 * Source: OWASP, CSV Injection (the signs, tab, carriage return and line feed); the full-width forms from memory.
 */
export function spreadsheetCell(text: string): string {
  return formulaStart.test(text) && !negativeNumber.test(text) ? `'${text}` : text
}
