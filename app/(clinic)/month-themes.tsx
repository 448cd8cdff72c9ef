import { count, numbered } from "../../lib/speech/format"
import { PeopleLink } from "../_ui/people-link"
import { Theme } from "../_ui/screen"
import { withSettings } from "../../lib/domain/setting-words"
import { details } from "../../lib/questions/measure-details"
import { dietSodium } from "../../lib/measures/diet-sodium"
import { themes } from "../../lib/measures/themes"
import { dietFigure } from "../../lib/figures/diet-figure"
import { attentionOf, unsafeOf } from "../../lib/figures/attention"
import { dietSignals } from "../../lib/figures/diet-signals"
import { firstOf } from "../../lib/figures/first-lines"
import { MonthFirst } from "./month-first"
import { DietRow } from "./diet-row"
import { fewestForRate, type MeasureFigure } from "../../lib/figures/measure-figure"
import { MeasureRow } from "./measure-row"
import { measureHref, standingParam } from "./measures/search-params"
import type { MonthAnswers } from "./month-answers"
import type { ChosenMonth } from "./months"
import { WouldBeToday } from "./would-be-today"
import styles from "./measure-row.module.css"

/** The measures told in full; the others of their theme stand under them in short. */
const headlines: ReadonlySet<string> = new Set([
  "bp-at-target",
  "uncontrolled-on-several-classes",
  "ras-blocker-in-albuminuria",
  "acr-tested",
  "potassium-high-on-ras",
])

/** Every measure by theme: those of the headlines in full, the others in short. */
export function MonthThemes({ chosen, answers }: { chosen: ChosenMonth; answers: MonthAnswers }) {
  const figures = byAttention([...answers.figures.values()])
  const diet = dietFigure(answers.diet, answers.asOfs, chosen.asOf)
  const signals = dietSignals({
    ...{ series: diet.headline, chosen: diet.chosen, chosenBaseline: answers.dietBaseline },
  })
  const first = firstOf({
    ...{ figures, actions: answers.actions, month: chosen.month, today: answers.clinicToday },
    diet: { figure: diet, signals },
  })
  return (
    <>
      <MonthFirst first={first} month={chosen.param} />
      {themes.map((theme) => {
        const own = figures.filter((figure) => figure.measure.theme === theme.id)
        const full = own.filter((figure) => headlines.has(figure.measure.id))
        const short = own.filter((figure) => !headlines.has(figure.measure.id))
        if (own.length === 0 && theme.id !== dietSodium.theme) return null
        return (
          <Theme key={theme.id} id={theme.id} title={theme.title}>
            {theme.id === dietSodium.theme ? (
              <DietRow
                figure={diet}
                month={chosen.param}
                signals={signals}
                since={answers.dietSince}
                today={answers.dietToday}
              />
            ) : null}
            {full.map((figure) => (
              <MeasureRow key={figure.measure.id} figure={figure} month={chosen.param}>
                <DetailWords figure={figure} chosen={chosen} answers={answers} />
                <WouldBeToday
                  figure={figure}
                  month={chosen.param}
                  today={answers.today.get(figure.measure.id)}
                />
              </MeasureRow>
            ))}
            {short.map((figure) => (
              <MeasureRow key={figure.measure.id} figure={figure} month={chosen.param} size="short">
                <WouldBeToday
                  figure={figure}
                  month={chosen.param}
                  today={answers.today.get(figure.measure.id)}
                />
              </MeasureRow>
            ))}
          </Theme>
        )
      })}
      <p className={`soft fine ${styles.reading}`}>
        Shaded: 95% interval. Dotted: median of the first year. Where fewer than {fewestForRate} are counted,
        columns count the people. Neighbouring months share most of their people, so a run of months on one
        side of the dotted line is no signal by itself: signals come from the facts of each month alone.
      </p>
    </>
  )
}

/** Those that want attention first, in that order; the others stay where they are. */
function byAttention(figures: readonly MeasureFigure[]): MeasureFigure[] {
  return [...new Set([...unsafeOf(figures), ...attentionOf(figures).map(({ figure }) => figure), ...figures])]
}

/** What could be done next for those who want attention: parts of the list, each opening its people. */
function DetailWords(props: { figure: MeasureFigure; chosen: ChosenMonth; answers: MonthAnswers }) {
  const { figure, chosen, answers } = props
  const parts = details
    .filter((detail) => detail.measureId === figure.measure.id && detail.isOnMonth)
    .filter((detail) => chosen.isRunning || !detail.isAhead)
    .map((detail) => ({
      detail,
      people:
        answers.details.find((row) => row.measure_id === detail.measureId && row.detail === detail.id)
          ?.people ?? 0,
    }))
    .filter((part) => part.people > 0)
  const [first] = parts
  if (!first) return null
  const total = first.detail.standing === "met" ? figure.counts.met : figure.counts.notMet
  return (
    <p>
      Of the {count(total)}:{" "}
      {parts.map(({ detail, people }, place) => (
        <span key={detail.id}>
          {place === 0 ? "" : ", "}
          <PeopleLink
            number={people}
            href={measureHref(
              figure.measure.id,
              { month: chosen.param, standing: standingParam(detail.standing), detail: detail.id },
              "people",
            )}
          >
            {numbered(people, withSettings(detail.words, figure.measure.set))}
          </PeopleLink>
        </span>
      ))}
      .
    </p>
  )
}
