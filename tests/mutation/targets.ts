import { readdirSync, readFileSync } from "node:fs"
import { cautions } from "../../lib/measures/cautions"
import { measures } from "../../lib/measures/index"
import type { Measure } from "../../lib/measures/types"
import { mutantsOf, type Mutant } from "./mutate"

/** A SQL text under test: a formula, a view, one condition of measures or a caution, with the file it stands in. */
export type Target = {
  kind: "formula" | "view" | "condition" | "caution"
  file: string
  sql: string
  /** Where the text begins in its file. */
  at: number
}

/** A mutant with its place in the file. `lineText` says which line it is whatever is added above it. */
export type PlacedMutant = Mutant & { id: string; target: Target; lineText: string; content: string }

/** Every SQL text of lib/clinical, every condition of the measures and every caution. */
export function allTargets(): Target[] {
  return [
    ...sqlFiles("formulas", "formula"),
    ...sqlFiles("views", "view"),
    ...conditions(),
    ...cautionTargets(),
  ]
}

/** The mutants of a text, each with the content its file would have. */
export function placedMutants(target: Target): PlacedMutant[] {
  const content = readFileSync(target.file, "utf8")
  return mutantsOf(target.sql).map((mutant) => {
    const before = content.slice(0, target.at).split("\n")
    const line = before.length + mutant.line - 1
    const column = mutant.line === 1 ? (before.at(-1) ?? "").length + mutant.column : mutant.column
    return {
      ...mutant,
      target,
      line,
      column,
      id: `${target.file}:${line}:${column} ${mutant.from} -> ${mutant.to}`,
      lineText: (content.split("\n")[line - 1] ?? "").trim(),
      content: content.slice(0, target.at) + mutant.sql + content.slice(target.at + target.sql.length),
    }
  })
}

/** Where a condition is written: in the file of its measure, or in one that several measures share. */
export function fileOfCondition(measure: Measure, sql: string): string | undefined {
  const own = `lib/measures/${measure.id}.ts`
  return [own, ...measureFiles().filter((file) => file !== own)].find((file) =>
    readFileSync(file, "utf8").includes(sql),
  )
}

export function conditionsOf(measure: Measure) {
  return [...measure.population, ...measure.excluded, ...measure.unknown, measure.met, ...measure.exception]
}

function sqlFiles(folder: "formulas" | "views", kind: Target["kind"]): Target[] {
  return readdirSync(`lib/clinical/${folder}`)
    .filter((name) => name.endsWith(".sql"))
    .sort()
    .map((name) => {
      const file = `lib/clinical/${folder}/${name}`
      return { kind, file, sql: readFileSync(file, "utf8"), at: 0 }
    })
}

function conditions(): Target[] {
  const found = new Map<string, Target>()
  for (const measure of measures)
    for (const { sql } of conditionsOf(measure)) {
      const file = fileOfCondition(measure, sql)
      if (file === undefined) throw new Error(`no file of lib/measures holds the condition ${sql}`)
      found.set(`${file} ${sql}`, {
        kind: "condition",
        file,
        sql,
        at: readFileSync(file, "utf8").indexOf(sql),
      })
    }
  return [...found.values()]
}

function cautionTargets(): Target[] {
  const file = "lib/measures/cautions.ts"
  const content = readFileSync(file, "utf8")
  return cautions.map(({ sql }) => ({ kind: "caution", file, sql, at: content.indexOf(sql) }))
}

function measureFiles(): string[] {
  return readdirSync("lib/measures")
    .filter((name) => name.endsWith(".ts"))
    .map((name) => `lib/measures/${name}`)
}
