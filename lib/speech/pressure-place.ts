export type PressureSource = "office" | "home" | "ambulatory"

/** Where a pressure was taken, in a word. */
export const placeWords: Readonly<Record<PressureSource, string>> = {
  office: "office",
  home: "home",
  ambulatory: "24-hour",
}

/** A pressure's place in brackets after it: " (home)"; nothing for a word that is no place. */
export function takenWords(source: string | null): string {
  return source === "office" || source === "home" || source === "ambulatory" ? ` (${placeWords[source]})` : ""
}
