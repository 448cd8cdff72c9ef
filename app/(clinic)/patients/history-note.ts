import { z } from "zod"

const HistoryNote = z.object({ find: z.string().catch(""), row: z.number().int().min(0).catch(0) })

/** What the browser keeps beside an entry of its history: the search text and the row one stood on. Never in an address. */
export type HistoryNote = z.infer<typeof HistoryNote>

export function readHistoryNote(): HistoryNote {
  return HistoryNote.catch({ find: "", row: 0 }).parse(window.history.state ?? {})
}

export function keepHistoryNote(note: HistoryNote): void {
  window.history.replaceState({ ...note }, "")
}
