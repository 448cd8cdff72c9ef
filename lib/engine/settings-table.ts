import "server-only"
import type { Settings } from "../domain/settings"

/** The select of the one row of settings that the clinical views read: `bp.windowMonths` is its column `bp_window_months`. */
export function settingsSql(settings: Settings): string {
  const columns = Object.entries(settings)
    .filter(([key]) => !/^(import|access|keep)\.|^outreach\.(urgentText|letterValues)$/.test(key))
    .map(([key, value]) => `${literal(value)} as ${columnOf(key)}`)
  return `select ${columns.join(", ")}`
}

/** The column of a setting in the table `settings`. */
export function columnOf(key: string): string {
  return key.replace(".", "_").replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)
}

/** A value as SQL writes it. */
export function literal(value: string | number | null): string {
  if (value === null) return "cast(null as double)"
  if (typeof value === "string") return `'${value.replaceAll("'", "''")}'`
  return Number.isInteger(value) ? `cast(${value} as integer)` : `cast(${value} as double)`
}
