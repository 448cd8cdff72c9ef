import "server-only"
import { rm } from "node:fs/promises"
import path from "node:path"
import { DuckDBInstance } from "@duckdb/node-api"
import { differencesOf } from "../domain/closed-figures"
import type { ClosedMonth } from "../domain/closed-month"
import { computeClosed } from "./closed-file"
import { askFigures } from "./figures-of"

/** Computes a closed month anew from the record store, whatever was computed before, and says where its figures differ. */
export async function verifyClosing(options: {
  databaseUrl: string
  workDir: string
  month: ClosedMonth
}): Promise<string[]> {
  const { databaseUrl, workDir, month } = options
  const file = path.join(workDir, `verify-${month.id}.duckdb`)
  await computeClosed({ databaseUrl, workDir, month }, file)
  const instance = await DuckDBInstance.create(file, { access_mode: "READ_ONLY" })
  const connection = await instance.connect()
  try {
    return differencesOf(month.figures, await askFigures(connection, month.asOf))
  } finally {
    connection.closeSync()
    instance.closeSync()
    await rm(file, { force: true })
  }
}
