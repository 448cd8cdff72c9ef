import { useRef, useState, type KeyboardEvent } from "react"
import styles from "./row-menu.module.css"

/** One menu for all rows: which row it is open for, and where. */
export function useRowMenu() {
  const element = useRef<HTMLDivElement>(null)
  const [row, setRow] = useState<number | null>(null)
  const openAt = (next: number, anchor: Element | null) => {
    const menu = element.current
    if (!menu || !anchor) return
    setRow(next)
    const box = anchor.getBoundingClientRect()
    menu.style.left = `${Math.max(8, Math.min(box.right, window.innerWidth - 8) - 176)}px`
    menu.style.top = `${Math.min(box.bottom, window.innerHeight - 96)}px`
    menu.showPopover()
    menu.querySelector("button")?.focus()
  }
  return { element, row, openAt }
}

export function RowMenu(props: {
  menu: ReturnType<typeof useRowMenu>
  open: (row: number) => void
  copy: (row: number) => void
}) {
  const { element, row } = props.menu
  const choose = (action: (row: number) => void) => {
    element.current?.hidePopover()
    if (row !== null) action(row)
  }
  return (
    <div ref={element} popover="auto" role="menu" aria-label="Row" className={styles.menu} onKeyDown={step}>
      <button type="button" role="menuitem" onClick={() => choose(props.open)}>
        Open
      </button>
      <button type="button" role="menuitem" onClick={() => choose(props.copy)}>
        Copy the row
      </button>
    </div>
  )
}

/** The arrow keys go round the menu's entries. */
function step(event: KeyboardEvent<HTMLDivElement>): void {
  if (event.key !== "ArrowDown" && event.key !== "ArrowUp") return
  event.preventDefault()
  const entries = [...event.currentTarget.querySelectorAll("button")]
  const at = entries.findIndex((entry) => entry === document.activeElement)
  const next = (at + (event.key === "ArrowDown" ? 1 : -1) + entries.length) % entries.length
  entries[next]?.focus()
}
