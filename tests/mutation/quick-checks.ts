import type { DuckDBConnection } from "@duckdb/node-api"
import { measures } from "../../lib/measures/index"
import type { Condition, Measure } from "../../lib/measures/types"
import { missOf, readVectors } from "../helpers/formula-vectors"
import { openFormulas, readFormulas } from "../helpers/formulas"
import { checksOf } from "./answers"
import { openByHand, type OpenedByHand } from "./by-hand"
import type { CheckedClinic } from "./clinics"
import { openDrugTexts } from "./drug-texts"
import {
  loadKept,
  openPipeline,
  recompute,
  restore,
  standingsStep,
  type Pipeline,
  type Step,
} from "./pipeline"
import { fileOfCondition, type PlacedMutant } from "./targets"

type Known = {
  name: string
  pipeline: Pipeline
  isStillRight: (changed: readonly string[]) => Promise<boolean>
  isSameAs?: OpenedByHand["isSameAs"]
}

export type QuickChecks = { formulas: DuckDBConnection; known: Known[] }

const drugTexts = "drug texts"

/** A statement that runs so much longer than the whole computation took is a difference too. */
const mostMs = 8_000

export async function openQuickChecks(clinics: readonly CheckedClinic[]): Promise<QuickChecks> {
  const known: Known[] = []
  for (const clinic of clinics) {
    const pipeline = await openPipeline({
      ...clinic,
      load: (connection) => loadKept(connection, clinic.file),
    })
    known.push({ name: clinic.name, pipeline, ...(await checksOf(clinic, pipeline)) })
  }
  const small = [{ name: drugTexts, ...(await openDrugTexts()) }, ...(await openByHand())]
  // The first clinic has most people worked out by hand; where it is right, the small ones are asked next.
  return { formulas: await openFormulas(), known: [...known.slice(0, 1), ...small, ...known.slice(1)] }
}

/** What first tells the mutant from the right text, or null when nothing does. */
export async function killerOf(checks: QuickChecks, mutant: PlacedMutant): Promise<string | null> {
  if (mutant.target.kind === "formula") return killingVector(checks.formulas, mutant)
  const isOfTexts = /\/views\/1[0-8]_/.test(mutant.target.file)
  const first = checks.known.filter(({ name }) => isOfTexts && name === drugTexts)
  for (const { name, pipeline, isStillRight, isSameAs } of [...first, ...checks.known]) {
    const limit = setTimeout(() => pipeline.connection.interrupt(), mostMs)
    try {
      if (mutant.target.kind === "caution") {
        if (isSameAs && !(await isSameAs(mutant.target.sql, mutant.sql))) return name
        continue
      }
      const step = mutatedStep(pipeline, mutant)
      const changed = step ? await recompute(pipeline, step) : []
      if (changed.length > 0 && !(await isStillRight(changed))) return name
    } catch (error) {
      return `error: ${error instanceof Error ? (error.message.split("\n")[0] ?? "") : "unknown"}`
    } finally {
      clearTimeout(limit)
      await restore(pipeline)
    }
  }
  return null
}

async function killingVector(connection: DuckDBConnection, mutant: PlacedMutant): Promise<string | null> {
  const formula = readFormulas().find((one) => mutant.target.file.endsWith(`/${one.file}`))
  if (!formula) throw new Error(`${mutant.target.file} is no formula`)
  try {
    await connection.run(mutant.sql)
    for (const vector of readVectors(formula).vectors)
      for (const number of ["decimal", "double"] as const) {
        const miss = await missOf(connection, { formula, vector, number })
        if (miss !== null) return miss
      }
    return null
  } catch (error) {
    return `error: ${error instanceof Error ? (error.message.split("\n")[0] ?? "") : "unknown"}`
  } finally {
    await connection.run(formula.sql)
  }
}

/** The step with the mutant's text; null where the computation has no such step. */
function mutatedStep(pipeline: Pipeline, mutant: PlacedMutant): Step | null {
  const isCondition = mutant.target.kind === "condition"
  const file = isCondition ? "patient_standings" : mutant.target.file
  const name = file.replace(/^.*\/\d+_/, "").replace(/(\.view)?\.sql$/, "")
  const step = pipeline.steps.find((one) => one.name === name)
  if (!step) return null
  return isCondition
    ? standingsStep(
        measures.map((one) => mutatedMeasure(one, mutant)),
        pipeline.settings,
      )
    : { ...step, sql: mutant.sql }
}

function mutatedMeasure(measure: Measure, mutant: PlacedMutant): Measure {
  const { file, sql } = mutant.target
  const changed = (condition: Condition): Condition =>
    condition.sql === sql && fileOfCondition(measure, sql) === file
      ? { ...condition, sql: mutant.sql }
      : condition
  return {
    ...measure,
    population: measure.population.map(changed),
    excluded: measure.excluded.map(changed),
    unknown: measure.unknown.map(changed),
    met: changed(measure.met),
    exception: measure.exception.map(changed),
  }
}
