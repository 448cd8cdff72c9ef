import { useEffect, useRef, type FocusEvent, type RefObject } from "react"

type Held = { row: Element; place: number }

/**
 * Keeps somebody who works by the keyboard where they were: when what had the focus is gone with what was recorded, its row
 * has the focus, or where the row is gone too the one that stands in its place.
 */
export function useKeptRow(list: RefObject<HTMLElement | null>) {
  const held = useRef<Held | null>(null)
  useEffect(() => {
    if (held.current === null || document.activeElement !== document.body) return
    const rows = rowsOf(list.current)
    const { row, place } = held.current
    const here = row.isConnected ? row : (rows[place] ?? rows.at(-1))
    here?.querySelector("a")?.focus()
  })
  return {
    onFocus: ({ target }: FocusEvent<HTMLElement>) => {
      const row = target.closest("[data-row]")
      held.current = row ? { row, place: rowsOf(list.current).indexOf(row) } : null
    },
    // Nothing is told of a focus that went with its field; this is somebody who left the row.
    onBlur: () => {
      held.current = null
    },
  }
}

export function rowsOf(list: HTMLElement | null): Element[] {
  return [...(list?.querySelectorAll("[data-row]") ?? [])]
}
