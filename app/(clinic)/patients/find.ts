import type { Panel } from "./panel"

/** For every row the text a search looks in: family and given name in both orders, and the clinic's number. */
export function searchTexts(panel: Panel): string[] {
  return Array.from({ length: panel.length }, (_, row) => {
    const family = panel.text("family_name", row) ?? ""
    const given = panel.text("given_name", row) ?? ""
    return plain(`${family} ${given} ${family} ${panel.text("patient_id", row) ?? ""}`)
  })
}

/** Marks the rows that hold every word of the query; null when there is nothing to look for. */
export function find(texts: readonly string[], query: string): Uint8Array | null {
  const words = plain(query)
    .split(/[\s,]+/)
    .filter((word) => word !== "")
  if (words.length === 0) return null
  return Uint8Array.from(texts, (text) => (words.every((word) => text.includes(word)) ? 1 : 0))
}

/** Without case and accents, so that "ines" finds Inés. */
function plain(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase()
}
