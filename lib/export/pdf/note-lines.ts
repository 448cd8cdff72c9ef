import type { PlacedNote } from "../../figures/note-places"
import { noteWords } from "../../figures/note-words"
import type { Line } from "./lines"
import { contentWidth, paper } from "./sheet"

/** Notes on the charts by the number they have there. */
export function noteLines(notes: readonly PlacedNote[]): Line[] {
  return notes
    .filter((note) => note.along !== null)
    .map((note) => ({
      cells: [
        { text: String(note.number), x: paper.left, width: 12, size: 8.5, gap: 0, font: "sansBold" },
        { text: noteWords(note), x: paper.left + 14, width: contentWidth - 14, size: 8.5, gap: 0 },
      ],
      after: 4,
    }))
}
