import Link from "next/link"
import { milligramInterval, milligrams, percentInterval } from "../../_ui/format"
import { Theme } from "../../_ui/screen"
import { sentenceText } from "../../_ui/sentence"
import { themes } from "../../../lib/measures/themes"
import { dietSodium } from "../../../lib/measures/diet-sodium"
import { dietFigure, pairedWords } from "../diet-figure"
import { changeTitle } from "../measure-change"
import { headlineOf, rateLabel, type MeasureFigure } from "../measure-figure"

import type { MonthAnswers } from "../month-answers"
import type { ChosenMonth } from "../months"
import { measureHref } from "./search-params"
import styles from "./measure-list.module.css"

type Line = {
  id: string
  name: string
  says: string
  figure: string
  interval: string | null
  change: string
}

/** Every measure with what it says this month, by theme. */
export function MeasureList({ answers, chosen }: { answers: MonthAnswers; chosen: ChosenMonth }) {
  const figures = [...answers.figures.values()]
  return (
    <>
      {themes.map((theme) => (
        <Theme key={theme.id} id={theme.id} title={theme.title}>
          <Lines
            month={chosen.param}
            lines={[
              ...(theme.id === dietSodium.theme ? [dietLine(answers, chosen)] : []),
              ...figures.filter((figure) => figure.measure.theme === theme.id).map(measureLine),
            ]}
          />
        </Theme>
      ))}
    </>
  )
}

function Lines({ lines, month }: { lines: Line[]; month: string | null }) {
  return (
    <ul className={styles.lines}>
      {lines.map((line) => (
        <li key={line.id}>
          <div>
            <h3>
              <Link href={measureHref(line.id, { month })} prefetch={false}>
                {line.name}
              </Link>
            </h3>
            <p className="soft">{line.says}</p>
          </div>
          <p className={styles.figure}>
            <strong>{line.figure}</strong>
            {line.interval ? <span className="soft"> ({line.interval})</span> : null}
          </p>
          <p className={styles.change}>{line.change}</p>
        </li>
      ))}
    </ul>
  )
}

function measureLine(figure: MeasureFigure): Line {
  const { measure, counts, rate } = figure

  return {
    id: measure.id,
    name: measure.name,
    says:
      rate.total === 0
        ? "No one to count."
        : sentenceText(headlineOf(figure), { ...counts, total: rate.total }),
    figure: rateLabel(rate),
    interval: rate.interval ? `${percentInterval(rate.interval)}%` : null,
    change: changeTitle(figure),
  }
}

function dietLine(answers: MonthAnswers, chosen: ChosenMonth): Line {
  const { now, paired } = dietFigure(answers.diet, answers.asOfs, chosen.asOf).headline
  return {
    id: dietSodium.id,
    name: dietSodium.name,
    says: paired ? `In the same people ${pairedWords(paired)}.` : dietSodium.question,
    figure: now.meanMg === null ? "no record" : milligrams(now.meanMg),
    interval: now.interval ? milligramInterval(now.interval) : null,
    change: "",
  }
}
