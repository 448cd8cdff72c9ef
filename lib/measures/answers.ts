import { measures } from "./index"
import { conditionsOf, standingExpression } from "./standing-sql"
import type { Measure } from "./types"

/** So many answers are kept in one whole number of 64 bits. */
const answersInNumber = 60

/** Every yes or no that measures ask of a row `p`, once each; its place is that of its answer. */
const places: ReadonlyMap<string, number> = new Map(
  [...new Set(measures.flatMap((measure) => [...questionsOf(measure), ...datedOf(measure)]))].map(
    (question, place) => [question, place],
  ),
)

export function questionsOf(measure: Measure): string[] {
  return conditionsOf(measure).map((condition) => condition.sql)
}

/** The question whether the deciding fact of a measure is dated in the calendar month; none where it has no such fact. */
export function datedOf({ fact }: Measure): string[] {
  return fact === null ? [] : [`p.${fact} >= date_trunc('month', p.as_of) and p.${fact} <= p.as_of`]
}

/**
 * The columns named `answers_0`, `answers_1` ... with the answers to some questions, a bit each: asked of a row `p`, or taken from
 * its own columns of that name.
 */
export function answerColumns(options: {
  questions: readonly string[]
  isAsked: (question: string) => boolean
}): { name: string; sql: string }[] {
  const all = [...new Set(options.questions)]
  return [...new Set(all.map((question) => placeOf(question).column))].map((name) => {
    const questions = all.filter((question) => placeOf(question).column === name)
    const asked = questions.filter(options.isAsked)
    const kept = questions.filter((question) => !options.isAsked(question))
    const bits = kept.reduce((sum, question) => sum + placeOf(question).bit, 0n)
    const parts = [
      ...(kept.length > 0 ? [`(p.${name} & ${number(bits)})`] : []),
      ...asked.map(
        (question) => `case when ${question} then ${number(placeOf(question).bit)} else ${number(0n)} end`,
      ),
    ]
    return { name, sql: parts.join("\n    + ") }
  })
}

/** Whether the answer to a question is yes, told from the columns of a row `p`, whose names may begin with something more. */
export function isYes(question: string, prefix = ""): string {
  const { column, bit } = placeOf(question)
  return `(p.${prefix}${column} & ${number(bit)}) <> 0`
}

/** The standing on a measure, told from the same columns. */
export function answeredStanding(measure: Measure, prefix = ""): string {
  return standingExpression(measure, (condition) => isYes(condition.sql, prefix))
}

function placeOf(question: string): { column: string; bit: bigint } {
  const place = places.get(question)
  if (place === undefined) throw new Error(`no measure asks: ${question}`)
  return {
    column: `answers_${Math.floor(place / answersInNumber)}`,
    bit: 2n ** BigInt(place % answersInNumber),
  }
}

function number(value: bigint): string {
  return `cast(${value} as bigint)`
}
