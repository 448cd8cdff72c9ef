import "server-only"
import {
  DuckDBDateValue,
  DuckDBDecimalValue,
  DuckDBListValue,
  DuckDBTimestampValue,
  type DuckDBType,
  type DuckDBValue,
  type DuckDBValueConverter,
} from "@duckdb/node-api"

/** What a cell of a result becomes: dates as "2026-01-31", timestamps as "2026-01-31 12:00:00", decimals and big integers as numbers. */
export type Cell = string | number | boolean | null | Cell[]

/** What a named parameter may be. */
export type Param = string | number | boolean | null

export const toCell: DuckDBValueConverter<Cell> = (value: DuckDBValue, _type: DuckDBType) => cellOf(value)

function cellOf(value: DuckDBValue): Cell {
  if (value === null || typeof value === "string" || typeof value === "number" || typeof value === "boolean")
    return value
  if (typeof value === "bigint") return Number(value)
  if (value instanceof DuckDBDecimalValue) return value.toDouble()
  if (value instanceof DuckDBListValue) return value.items.map(cellOf)
  if (value instanceof DuckDBDateValue || value instanceof DuckDBTimestampValue) return value.toString()
  throw new TypeError("a result column has a type that is not carried to screens")
}
