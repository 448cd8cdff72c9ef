import { isRole, roleWords } from "../../../lib/access/roles"
import { isPlainDate } from "../../../lib/domain/plain-date"
import { auditActions, isAuditAction } from "../../../lib/store/audit-actions"
import type { AuditRow } from "../../../lib/store/audit-log"
import { count, day } from "../../../lib/speech/format"

/** What was done: "opened a patient". */
export function actionWords(action: string): string {
  return isAuditAction(action) ? auditActions[action] : action
}

/** In which roles, or by which way. */
export function rolesOfEntry({ roles, origin }: AuditRow): string {
  if (origin === "command") return "by command"
  return roles
    .filter(isRole)
    .map((role) => roleWords[role])
    .join(", ")
}

/** An opaque id as it is told to apart on a screen: its first eight digits. */
export function shortId(id: string): string {
  return id.slice(0, 8)
}

/** What is noted beside an entry: "on 31 Oct 2026, standing not met". */
export function detailWords(detail: AuditRow["detail"]): string {
  return Object.entries(detail)
    .filter(([, value]) => value !== null && value !== "")
    .map(([name, value]) => `${nameWords(name)} ${valueWords(value)}`)
    .join(", ")
}

function nameWords(name: string): string {
  if (name.includes(".")) return name
  return name
    .replace(/^(is|has)(?=[A-Z])/, "")
    .replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
    .trim()
}

function valueWords(value: unknown): string {
  if (value === true) return "yes"
  if (value === false) return "no"
  if (typeof value === "number") return count(value)
  const text = typeof value === "string" ? value : JSON.stringify(value)
  return isPlainDate(text) ? day(text) : text
}

/** An instant of a dense table: "28 Nov 2026, 08:15:04". */
export function moment(at: Date, timeZone: string): string {
  const field = new Map(
    new Intl.DateTimeFormat("en-CA", {
      ...{ timeZone, year: "numeric", month: "2-digit", day: "2-digit" },
      ...{ hour: "2-digit", minute: "2-digit", second: "2-digit", hourCycle: "h23" },
    })
      .formatToParts(at)
      .map((part) => [part.type, part.value]),
  )
  const plainDate = `${field.get("year")}-${field.get("month")}-${field.get("day")}`
  return `${day(plainDate)}, ${field.get("hour")}:${field.get("minute")}:${field.get("second")}`
}
