/** The first number of a text as screens write it: "1,204 people" is 1204. */
export function numberIn(text: string): number {
  const [digits = ""] = /[\d,]+/.exec(text) ?? []
  return Number(digits.replaceAll(",", ""))
}

/** A text of a screen with every run of blanks, line ends and fixed spaces as one blank. */
export function oneLine(text: string): string {
  return text.replaceAll(/\s+/g, " ").trim()
}
