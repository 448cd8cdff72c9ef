import { listed, sentenceCase } from "../../../../lib/speech/format"
import { PeopleLink } from "../../../_ui/people-link"
import { count } from "../../../../lib/speech/format"
import type { Standing } from "../../../../lib/domain/standings"
import type { Condition } from "../../../../lib/measures/types"
import { standingWords } from "../../../../lib/speech/measure-words"
import type { ChosenMonth } from "../../months"
import { measureHref, standingParam } from "../search-params"
import type { MeasureAnswers } from "./measure-answers"
import styles from "./measure-decision.module.css"

/** How the measure decides, in the order in which it is tried, with the people that each step took. */
export function MeasureDecision({ answers, chosen }: { answers: MeasureAnswers; chosen: ChosenMonth }) {
  const { measure, counts } = answers.figure
  const isUp = measure.direction === "up"
  const steps: Step[] = [
    {
      title: "Asked of",
      words: [sentenceCase(listed(wordsOf(measure.population)))],
      people: counts.population,
      standing: null,
    },
    { title: "Left out", words: wordsOf(measure.excluded), people: counts.excluded, standing: "excluded" },
    {
      title: sentenceCase(standingWords(measure, "unknown")),
      words: wordsOf(measure.unknown),
      people: counts.unknown,
      standing: "unknown",
    },
    {
      title: sentenceCase(standingWords(measure, "met")),
      words: [sentenceCase(measure.met.words)],
      people: counts.met,
      standing: "met",
    },
    {
      title: sentenceCase(standingWords(measure, "exception")),
      words: wordsOf(measure.exception),
      people: counts.exception,
      standing: "exception",
    },
    {
      title: sentenceCase(standingWords(measure, "not met")),
      words: ["Everyone else who is asked"],
      people: counts.notMet,
      standing: "not met",
    },
  ]
  const asked = steps.filter((step) => step.words.length > 0)
  return (
    <>
      <ol className={styles.steps}>
        {asked.map((step) => (
          <li key={step.title}>
            <strong className={styles.people}>
              <StepPeople step={step} answers={answers} chosen={chosen} />
            </strong>
            <h3>{step.title}</h3>
            <div>
              {step.words.map((words) => (
                <ConditionWords key={words} words={words} step={step} answers={answers} chosen={chosen} />
              ))}
            </div>
          </li>
        ))}
      </ol>
      <p className={styles.note}>
        {isUp
          ? "The first step that fits decides. More is better: whoever is not measured counts against the clinic, and a documented reason leaves the denominator."
          : `The first step that fits decides. Fewer is better: what is counted, ${measure.metWords}, is not wanted. The rate is of the measured; the unmeasured stand beside it.`}
      </p>
    </>
  )
}

type Step = { title: string; words: string[]; people: number; standing: Standing | null }

type StepProps = { step: Step; answers: MeasureAnswers; chosen: ChosenMonth }

function StepPeople({ step, answers, chosen }: StepProps) {
  if (step.standing === null) return <>{count(step.people)}</>
  return (
    <PeopleLink number={step.people} href={hrefOf({ step, answers, chosen }, null)}>
      {count(step.people)}
    </PeopleLink>
  )
}

/** One condition; where it is one of several reasons, with how many it was the first for. */
function ConditionWords({ words, ...props }: StepProps & { words: string }) {
  const reason = props.answers.reasons.find(
    (one) => one.standing === props.step.standing && one.reason === words,
  )
  if (props.step.words.length < 2) return <p>{sentenceCase(words)}</p>
  const people = reason?.people ?? 0
  return (
    <p>
      {sentenceCase(words)}:{" "}
      <PeopleLink number={people} href={hrefOf(props, words)}>
        {count(people)}
      </PeopleLink>
    </p>
  )
}

function hrefOf({ step, answers, chosen }: StepProps, reason: string | null): string {
  const standing = step.standing === null ? null : standingParam(step.standing)
  return measureHref(answers.figure.measure.id, { month: chosen.param, standing, reason }, "people")
}

function wordsOf(conditions: readonly Condition[]): string[] {
  return conditions.map((condition) => condition.words)
}
