import { useId, useRef, type ReactNode } from "react"
import { Button } from "../../_ui/button"
import styles from "./popover.module.css"

/** A button that opens a small panel under itself; Escape or a press elsewhere closes it. */
export function Popover({ label, children }: { label: string; children: ReactNode }) {
  const id = useId()
  const button = useRef<HTMLButtonElement>(null)
  return (
    <>
      <Button ref={button} popoverTarget={id}>
        {label}
      </Button>
      <div
        id={id}
        popover="auto"
        className={styles.popover}
        role="dialog"
        aria-label={label}
        onBeforeToggle={(event) => {
          const anchor = button.current?.getBoundingClientRect()
          if (event.newState !== "open" || !anchor) return
          const left = Math.max(8, Math.min(anchor.left, window.innerWidth - 350))
          event.currentTarget.style.left = `${left}px`
          event.currentTarget.style.top = `${anchor.bottom + 4}px`
        }}
      >
        {children}
      </div>
    </>
  )
}
