import { numbered, percentInterval } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import { dietSodium } from "../../../lib/measures/diet-sodium"
import { themes } from "../../../lib/measures/themes"
import { changeTitle } from "../../../lib/figures/change-title"
import { rateLabel, type MeasureFigure } from "../../../lib/figures/measure-figure"
import { MeasureStrip } from "../measure-row"
import { measureWords } from "../../../lib/speech/measure-words"
import type { MonthAnswers } from "../month-answers"
import type { ChosenMonth } from "../months"
import { DietEntry } from "./diet-entry"
import { Entry } from "./entry"

/** Every measure by theme: what it asks, what it says this month with its counts, and who acts on it. */
export function MeasureList({ answers, chosen }: { answers: MonthAnswers; chosen: ChosenMonth }) {
  const figures = [...answers.figures.values()]
  return (
    <>
      {themes.map((theme) => (
        <Theme key={theme.id} id={theme.id} title={theme.title}>
          <ul>
            {theme.id === dietSodium.theme ? <DietEntry answers={answers} chosen={chosen} /> : null}
            {figures
              .filter((figure) => figure.measure.theme === theme.id)
              .map((figure) => (
                <MeasureEntry key={figure.measure.id} figure={figure} month={chosen.param} />
              ))}
          </ul>
        </Theme>
      ))}
    </>
  )
}

function MeasureEntry({ figure, month }: { figure: MeasureFigure; month: string | null }) {
  const { measure, rate, counts } = figure
  const isEmpty = rate.total === 0 && counts.unknown === 0
  return (
    <Entry
      id={measure.id}
      month={month}
      name={measure.name}
      question={measure.question}
      figure={
        <>
          <p>
            <strong>{rateLabel(rate)}</strong>
            {rate.rate === null ? null : ` ${measureWords(measure).met}`}
          </p>
          {rate.interval ? <p className="soft">95% interval {percentInterval(rate.interval)}%</p> : null}
          {rate.interval && measure.direction === "down" ? <p className="soft">fewer is better</p> : null}
        </>
      }
      counts={
        isEmpty ? (
          <p className="soft">
            No one to count
            {counts.excluded > 0 ? `, ${numbered(counts.excluded, "left out")}` : ""}.
          </p>
        ) : (
          <MeasureStrip figure={figure} month={month} />
        )
      }
      change={changeTitle(figure)}
      actor={`The ${measure.actor} acts`}
    />
  )
}
