import { baselineWords } from "../../figures/baseline"
import { dietFinding, drawnPoints, noneDrawn, pairedTitle, pairedWords } from "../../figures/diet-figure"
import type { MonthReport, ReportedDiet } from "../../figures/month-report"
import { signalSentence } from "../../figures/signal-words"
import { dietSodium } from "../../measures/diet-sodium"
import { counted, milligrams, sentenceCase } from "../../speech/format"
import { measureActionLines } from "./action-lines"
import { drawChart, heightOfChart, type Chart } from "./chart"
import { heightOfLines, setEach, setLines, type Line } from "./lines"
import { drawnNotes } from "./measure-charts"
import type { Part } from "./measure-part"
import { noteLines } from "./note-lines"
import { ink, keepRoom, markPlace, paper, say, sayAt, type Sheet } from "./sheet"

const chartWidth = 282
const chartHeight = 92
const besideX = paper.left + chartWidth + 14
const beside = { x: besideX, width: paper.right - besideX }

/** The mean sodium of the month in each way of asking, with its limits, what is judged of it and the change in the same people. */
export function dietPart(sheet: Sheet, figure: ReportedDiet, report: MonthReport): Part {
  const { headline } = figure
  const lines = besideLines(figure)
  const beneath = [...noteLines(figure.notes), ...measureActionLines(figure.actions, report)]
  const course = Math.max(heightOfChart(chartHeight), heightOfLines(sheet, lines)) + 4
  const height = 90 + course + heightOfLines(sheet, beneath)
  return {
    height,
    set: () => {
      keepRoom(sheet, height)
      markPlace(sheet, dietSodium.id)
      say(sheet, dietSodium.name, { tag: "H3", font: "sansBold", size: 9, colour: ink.accent, after: 2 })
      say(sheet, dietFinding(headline), { font: "serif", size: 13, gap: 2, after: 3 })
      say(sheet, `${counted(headline.now.n, "person", "people")} with a record of the month in this series`, {
        ...{ colour: ink.soft, after: 6 },
      })
      const top = sheet.y
      setLines(sheet, lines, top)
      if (drawnPoints(headline).some((point) => point.meanMg !== null))
        drawChart(sheet, dietChart(figure), { x: paper.left, width: chartWidth, height: chartHeight })
      else if (headline.points.some((point) => point.meanMg !== null))
        sayAt(sheet, noneDrawn, top, { width: chartWidth, size: 8.5, colour: ink.soft, gap: 0.5 })
      sheet.y = top + course
      say(sheet, dietSodium.action, { size: 8.5, colour: ink.soft, gap: 1, after: 4 })
      setEach(sheet, beneath)
      sheet.y += 18
    },
  }
}

function besideLines(figure: ReportedDiet): Line[] {
  const { headline, series, signals, since } = figure
  const { paired } = headline
  const line = (text: string): Line => ({ cells: [{ ...beside, text, size: 9, gap: 0.5 }], after: 3 })
  const soft = (text: string): Line => ({
    cells: [{ ...beside, text, size: 8, gap: 0.5, colour: ink.soft }],
    after: 3,
  })
  const asOfs = signals.points.map((point) => point.asOf)
  return [
    ...(paired === null
      ? []
      : [
          { cells: [{ ...beside, text: pairedTitle(paired), font: "sansBold" }], after: 2 } as const,
          line(`${pairedWords(paired)} a day in ${counted(paired.n, "person", "people")} asked before.`),
        ]),
    ...(since === null ? [] : [line(since.same), ...(since.asked === null ? [] : [line(since.asked)])]),
    line(signalSentence(signals, "down")),
    ...(signals.judgement.ok ? [soft(baselineWords(signals.baseline, asOfs))] : []),
    ...series
      .filter((one) => one.name !== headline.name && one.now.meanMg !== null)
      .map((one) =>
        soft(
          `${sentenceCase(one.name)}: ${milligrams(one.now.meanMg ?? 0)} in ${counted(one.now.n, "person", "people")}.`,
        ),
      ),
  ]
}

function dietChart({ headline, signals, notes }: ReportedDiet): Chart {
  const { judgement, baseline, points } = signals
  return {
    title: "Records of each month",
    points: drawnPoints(headline).map((point) => ({
      ...{ asOf: point.asOf, value: point.meanMg },
      ...{ low: point.interval?.low ?? null, high: point.interval?.high ?? null },
    })),
    alt: `${dietFinding(headline)} ${signalSentence(signals, "down")}`,
    endLabel: headline.now.meanMg === null ? "no record" : milligrams(headline.now.meanMg),
    baseline: judgement.ok
      ? { value: judgement.median, label: `median ${milligrams(judgement.median)}`, from: baseline.from }
      : null,
    bounds: judgement.ok ? points : [],
    limits: dietSodium.limits.map((limit) => ({ value: limit.mg, label: milligrams(limit.mg) })),
    notes: drawnNotes(notes),
    ...{ drawn: "line", least: 600, ceiling: null, tick: (mg) => milligrams(mg).replace(/\u00a0mg$/, "") },
  }
}
