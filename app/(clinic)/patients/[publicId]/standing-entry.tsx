import Link from "next/link"
import { sentenceCase } from "../../../../lib/speech/format"
import { standingWords } from "../../../../lib/speech/measure-words"
import type { ConditionRow } from "./condition-rows"
import { ConditionList } from "./condition-list"
import { Phrases } from "./phrases"
import styles from "./standings.module.css"
import type { StandingFacts } from "./standings"

/**
 * One measure: where the person stands, the facts that decided, and every condition one key away. A small entry leaves the
 * source rows to the conditions.
 */
export function StandingEntry(props: StandingFacts & { size?: "small" }) {
  const { measure, standing, rows, size } = props
  const wanting = measure.direction === "up" ? "not met" : "met"
  const deciding = decidingRows(standing.standing, rows)
  const reached = measure.direction === "up" ? "met" : "not met"
  return (
    <section
      className={size === "small" ? `${styles.entry} ${styles.small}` : styles.entry}
      aria-label={measure.name}
      data-reached={standing.standing === reached}
      data-standing={standing.standing}
    >
      <p className={standing.standing === wanting ? styles.wanting : styles.standing}>
        <Link href={`/measures/${measure.id}`} prefetch={false}>
          {measure.name}
        </Link>
        : {standingWords(measure, standing.standing)}
      </p>
      {deciding.map((row) => (
        <div key={`${row.part} ${row.words}`}>
          <h3>{sentenceCase(headline(standing.standing, row))}</h3>
          <Phrases
            phrases={row.phrases}
            isValueShown={row.phrases.length > 1 || isReason(standing.standing)}
            size={size}
          />
        </div>
      ))}
      {isReason(standing.standing) || size === "small"
        ? null
        : rows
            .filter((row) => row.isTelling)
            .map((row) => (
              <div key={row.words} className={styles.telling}>
                <Phrases phrases={row.phrases} isValueShown />
              </div>
            ))}
      <ConditionList rows={rows} source={measure.source} />
    </section>
  )
}

/** The conditions that put the person where they stand. */
function decidingRows(standing: string, rows: readonly ConditionRow[]): ConditionRow[] {
  const of = (part: ConditionRow["part"], holds: boolean) =>
    rows.filter((row) => row.part === part && row.holds === holds)
  if (standing === "outside") return of("population", false)
  if (standing === "excluded") return of("excluded", true)
  if (standing === "unknown") return of("unknown", true)
  if (standing === "exception") return of("exception", true)
  return rows.filter((row) => row.part === "met")
}

/** For a value that decides, the value; for a reason, the reason. */
function headline(standing: string, row: ConditionRow): string {
  if (standing === "outside") return `no: ${row.words}`
  if (standing === "met" || standing === "not met")
    return row.phrases.map((phrase) => phrase.value).join(", ")
  return row.words
}

/** A standing that is a reason is headed by the reason, and its value stands beneath. */
function isReason(standing: string): boolean {
  return standing !== "met" && standing !== "not met"
}
