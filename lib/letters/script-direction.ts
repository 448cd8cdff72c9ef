/** Scripts that run from right to left: the Unicode Character Database, Bidi_Class R and AL, those of living languages (from memory). */
const fromTheRight = new Set(["Adlm", "Arab", "Hebr", "Nkoo", "Rohg", "Syrc", "Thaa"])

/** Which way the script of a language runs. */
export function directionOf(language: string): "ltr" | "rtl" {
  return fromTheRight.has(new Intl.Locale(language).maximize().script ?? "") ? "rtl" : "ltr"
}

/**
 * What is filled into a letter, each line kept together in a script that runs from the right, so that a name, a value or
 * English words in it keep their order and their marks their side.
 * Source: Unicode Standard Annex 9, first strong isolate and pop directional isolate.
 */
export function isolated(text: string, language: string): string {
  if (directionOf(language) === "ltr") return text
  return text
    .split("\n")
    .map((line) => `\u2068${line}\u2069`)
    .join("\n")
}
