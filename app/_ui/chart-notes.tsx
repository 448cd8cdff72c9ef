import type { PlacedNote } from "../../lib/figures/note-places"
import { placed } from "./placed"
import styles from "./chart-notes.module.css"

/** Room for words beside a line, as a share of the chart's width; with less the number stands alone. */
const leastRoom = 0.12

/** Dated notes as thin lines down a chart, each with its number in the list beneath and as much of its text as has room. */
export function ChartNotes({ notes }: { notes: readonly PlacedNote[] }) {
  const drawn = notes.flatMap(({ note, number, along }) => (along === null ? [] : [{ note, number, along }]))
  return drawn.map(({ note, number, along }) => {
    const room = Math.min(1, ...drawn.map((other) => other.along).filter((other) => other > along)) - along
    return (
      <span
        key={note.id}
        className={styles.note}
        {...placed({ left: `${along * 100}%`, width: `${room * 100}%` })}
      >
        <span>{room < leastRoom ? number : `${number} ${note.text}`}</span>
      </span>
    )
  })
}
