import type { ReactNode } from "react"
import { count, day, lab } from "../../../lib/speech/format"
import styles from "./columns.module.css"
import { alphabetKeys, type SortKeys } from "./order"
import type { NumberName, Panel, TextName } from "./panel"

/** One column of the panel: how it is headed, sorted, shown, told in a sentence, and copied. */
export type PanelColumn = {
  readonly id: string
  readonly head: string
  readonly unit?: string
  readonly width: number
  readonly isNumber: boolean
  readonly isShownFirst: boolean
  /** The direction of the first press on the head. */
  readonly first: "up" | "down"
  readonly keys: (panel: Panel) => SortKeys
  readonly cell: (panel: Panel, row: number) => ReactNode
  /** The value as text for a copied row and for CSV; empty when missing. */
  readonly text: (panel: Panel, row: number) => string
  /** The words before the value where the columns have no heads, on a phone. */
  readonly label: string
}

type Telling = Partial<Pick<PanelColumn, "unit" | "isNumber" | "isShownFirst" | "first" | "label">>

export function told(id: string, head: string, width: number, more: Telling = {}) {
  const label = inSentence(head)
  return { id, head, width, isNumber: false, isShownFirst: false, first: "up", label, ...more } as const
}

export function word(id: string, head: string, name: TextName, width: number): PanelColumn {
  return {
    ...told(id, head, width),
    keys: (panel) => alphabetKeys(panel.texts(name)),
    cell: (panel, row) => absentOr(panel.text(name, row) ?? "", "not known"),
    text: (panel, row) => panel.text(name, row) ?? "",
  }
}

export function number(
  id: string,
  head: string,
  name: NumberName,
  width: number,
  unit?: string,
): PanelColumn {
  return {
    ...told(id, head, width, { unit, isNumber: true }),
    keys: (panel) => panel.numbers(name),
    cell: (panel, row) => absentOr(wholeText(panel, row, name), "none"),
    text: (panel, row) => String(panel.number(name, row) ?? ""),
  }
}

/** A number with a form of its own, such as a share or a slope. */
export function measured(
  id: string,
  head: string,
  name: NumberName,
  options: { width: number; unit: string; write: (value: number) => string },
): PanelColumn {
  const { width, unit, write } = options
  return {
    ...told(id, head, width, { unit, isNumber: true, first: "down" }),
    keys: (panel) => panel.numbers(name),
    cell: (panel, row) => {
      const value = panel.number(name, row)
      return absentOr(value === null ? "" : write(value), "none")
    },
    text: (panel, row) => String(panel.number(name, row) ?? ""),
  }
}

export function dated(id: string, head: string, name: TextName): PanelColumn {
  return {
    ...told(id, head, 92, { first: "down" }),
    keys: (panel) => alphabetKeys(panel.texts(name)),
    cell: (panel, row) => {
      const on = panel.text(name, row)
      return absentOr(on === null ? "" : day(on), "none")
    },
    text: (panel, row) => panel.text(name, row) ?? "",
  }
}

export function absentOr(text: string, absent: string): ReactNode {
  return text === "" ? <span className={styles.absent}>{absent}</span> : text
}

export function wholeText(panel: Panel, row: number, name: NumberName): string {
  const value = panel.number(name, row)
  return value === null ? "" : count(value)
}

/** A laboratory value as a spreadsheet reads it. */
export function plainLab(panel: Panel, row: number, name: NumberName, comparator: TextName): string {
  const value = panel.number(name, row)
  return value === null ? "" : `${panel.text(comparator, row) ?? ""}${value}`
}

export function labText(
  panel: Panel,
  row: number,
  name: NumberName,
  comparator: TextName,
  decimals: number,
): string {
  const value = panel.number(name, row)
  if (value === null) return ""
  return lab({ number: value, comparator: panel.text(comparator, row), unit: "", decimals }).trim()
}

/** A head as it stands within a sentence: "Next visit" is "next visit", "ACR" stays. */
function inSentence(head: string): string {
  return /^[A-Z][a-z]/.test(head) ? head.charAt(0).toLowerCase() + head.slice(1) : head
}
