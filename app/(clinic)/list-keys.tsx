"use client"

import { useRef, type KeyboardEvent, type ReactNode } from "react"
import { rowsOf, useKeptRow } from "./use-kept-row"

/**
 * The keys of the list: from row to row, and to what a row offers. They act only while a row has the focus and nothing is
 * typed, so that no key surprises somebody who speaks to the machine. Everything is there without them.
 */
export function ListKeys({ children }: { children: ReactNode }) {
  const list = useRef<HTMLDivElement>(null)
  const kept = useKeptRow(list)
  const pressed = (event: KeyboardEvent<HTMLDivElement>) => {
    const { target } = event
    if (event.ctrlKey || event.altKey || event.metaKey || !(target instanceof HTMLElement)) return
    if (isTyped(target)) return
    const row = target.closest("[data-row]")
    if (!list.current || !row) return
    if (act({ key: event.key, list: list.current, row })) event.preventDefault()
  }
  return (
    <div ref={list} onKeyDown={pressed} {...kept}>
      {children}
    </div>
  )
}

function act({ key, list, row }: { key: string; list: HTMLElement; row: Element }): boolean {
  switch (key.toLowerCase()) {
    case "j":
    case "arrowdown":
      return focusRow(list, { row, by: 1 })
    case "k":
    case "arrowup":
      return focusRow(list, { row, by: -1 })
    case "l":
      return use(row.querySelector('[data-act="attempt"]'))
    case "s":
      return use(row.querySelector('[data-act="snooze"]'))
    case "d":
      return use(row.querySelector('[data-act="decide"]'))
    case "u":
      return use(row.querySelector('[data-act="undo"]'))
    case "t":
      return use(document.querySelector('[data-act="take-next"]'))
    case "?":
      document.getElementById("list-keys")?.togglePopover()
      return true
    default:
      return false
  }
}

function isTyped(target: HTMLElement): boolean {
  return target.isContentEditable || target.closest("input, select, textarea, [popover]") !== null
}

function focusRow(list: HTMLElement, { row, by }: { row: Element; by: number }): boolean {
  const rows = rowsOf(list)
  const next = rows[rows.indexOf(row) + by]?.querySelector("a")
  next?.focus()
  next?.scrollIntoView({ block: "nearest" })
  return true
}

/** Goes on to the row after the one that something stands in; from the last row to its own head. */
export function goToNextRow(from: Element): void {
  const row = from.closest("[data-row]")
  const next = row?.nextElementSibling ?? row
  const head = next?.querySelector("a")
  head?.focus()
  head?.scrollIntoView({ block: "nearest" })
}

/** Opens what is folded and goes to its first field; presses what is a button, follows what is a link. */
function use(found: Element | null): boolean {
  if (found === null) return false
  if (found instanceof HTMLDetailsElement) {
    found.open = true
    found.querySelector<HTMLElement>("input:not([type=hidden]), select, textarea, button")?.focus()
    return true
  }
  const pressable = found.matches("a, button") ? found : found.querySelector("button, a")
  if (pressable instanceof HTMLElement) pressable.click()
  return pressable !== null
}
