import "server-only"
import { createHash } from "node:crypto"
import { readdirSync, readFileSync } from "node:fs"
import path from "node:path"
import { measures } from "../measures/index"
import { countedTables } from "./closed-tables"
import { standingsSql } from "../measures/standing-sql"

const clinicalDir = path.resolve(process.cwd(), "lib/clinical")

/** Names the definitions by which figures are computed: formulas, code lists, views and the measures as one statement. */
export function definitionsHash(): string {
  const hash = createHash("sha256")
  for (const folder of ["codes", "formulas", "views"])
    for (const name of readdirSync(path.join(clinicalDir, folder)).sort())
      hash.update(`${folder}/${name}\0`).update(readFileSync(path.join(clinicalDir, folder, name)))
  hash.update(standingsSql(measures))
  for (const [, sql] of countedTables()) hash.update(sql)
  return hash.digest("hex")
}
