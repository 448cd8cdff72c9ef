import { z } from "zod"
import type { Evidence } from "../measures/types"

const text = z.string().nullable()
const number = z.number().nullable()

const evidences = [
  ...(["pressure", "counted day", "kidney", "urine", "drugs", "potassium", "problems"] as const),
  ...(["dialysis", "allergies", "decisions", "person"] as const),
  ...(["risk cell", "kidney tests", "slope", "failure risk", "home", "diet", "dietitian"] as const),
  ...(["earlier pressure", "drug changes", "drug stops", "RAS blocker starts"] as const),
] as const satisfies readonly Evidence[]

const monitoringTopics = [
  ...(["egfr tests", "tests due", "acr test", "slope", "failure risk", "risk acr"] as const),
  ...(["home average", "diet mean", "last diet record", "dietitian visit"] as const),
] as const

export type MonitoringTopic = (typeof monitoringTopics)[number]

export const EvidenceFact = z.object({
  evidence: z.enum(evidences),
  /** What kind of fact it is; the screen has words for each. */
  topic: z.enum([
    ...([
      "representative",
      "latest counted",
      "counted day",
      "egfr",
      "egfr run",
      "urine",
      "confirming urine",
    ] as const),
    ...([
      "class",
      "ras stopped",
      "potassium",
      "problem",
      "dialysis visit",
      "allergy",
      "decision",
      "age",
    ] as const),
    ...([
      "earlier pressure",
      "kind",
      "class started",
      "dose raised",
      "withdrawal",
      "dose reduced",
      "class stopped",
      "ras start",
    ] as const),
    ...monitoringTopics,
  ]),
  /** A word of the fact: the source of a pressure, a test, a class, a condition. */
  word: text,
  /** Its text as recorded: a drug, a code with its description, a reason. */
  detail: text,
  first: number,
  second: number,
  comparator: text,
  since: text,
  day: text,
  rows: z.number().int().nullable(),
  sources: z.array(z.string()),
})

export type EvidenceFact = z.infer<typeof EvidenceFact>

/** The columns of a fact, of the table named, for a select that gathers facts of several kinds. */
export function factColumns(table: string): string {
  return [
    "evidence",
    "topic",
    "word",
    "detail",
    "first",
    "second",
    "comparator",
    "since",
    "day",
    "rows",
    "sources",
  ]
    .map((name) => `${table}.${name}`)
    .join(", ")
}
