import { day } from "../speech/format"
import type { PlacedNote } from "./note-places"

/** "3 Mar 2026: home readings count. All measures. Ruth Alder" */
export function noteWords({ note }: PlacedNote): string {
  const whose = note.measureId === null ? " All measures." : ""
  const text = /[.!?]$/.test(note.text) ? note.text : `${note.text}.`
  return `${day(note.onDay)}: ${text}${whose} ${note.madeBy}`
}
