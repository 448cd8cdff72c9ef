import { dietFinding, pairedTitle, pairedWords, type DietFigure } from "../../figures/diet-figure"
import { dietSodium } from "../../measures/diet-sodium"
import { counted, milligrams, sentenceCase } from "../../speech/format"
import { drawChart } from "./chart"
import { ink, keepRoom, markPlace, paper, say, sayAt, type Sheet } from "./sheet"

const chartWidth = 300
const besideX = paper.left + chartWidth + 16

/** The mean sodium of the month in each way of asking, with its limits and the change in the same people. */
export function setDiet(sheet: Sheet, figure: DietFigure): void {
  const { headline } = figure
  keepRoom(sheet, 190)
  markPlace(sheet, dietSodium.id)
  say(sheet, dietSodium.name, { tag: "H3", font: "sansBold", size: 9, colour: ink.accent, after: 2 })
  say(sheet, dietFinding(headline), { font: "serif", size: 13, gap: 2, after: 3 })
  say(sheet, `${counted(headline.now.n, "person", "people")} with a record of the month in this series`, {
    ...{ colour: ink.soft, after: 6 },
  })
  const top = sheet.y
  const beside = { x: besideX, width: paper.right - besideX }
  let y = top + 6
  if (headline.paired) {
    const { paired } = headline
    y += sayAt(sheet, pairedTitle(paired), y, { ...beside, font: "sansBold" }) + 2
    const who = counted(paired.n, "person", "people")
    y += sayAt(sheet, `${pairedWords(paired)} a day in ${who} asked before.`, y, { ...beside, size: 9 }) + 3
  }
  for (const other of figure.series.filter((one) => one.name !== headline.name && one.now.meanMg !== null))
    y +=
      sayAt(
        sheet,
        `${sentenceCase(other.name)}: ${milligrams(other.now.meanMg ?? 0)} in ${counted(other.now.n, "person", "people")}.`,
        y,
        { ...beside, size: 9 },
      ) + 2
  if (headline.points.some((point) => point.meanMg !== null))
    drawChart(
      sheet,
      {
        points: headline.points.map((point) => ({
          ...{ asOf: point.asOf, value: point.meanMg },
          ...{ low: point.interval?.low ?? null, high: point.interval?.high ?? null },
        })),
        alt: dietFinding(headline),
        endLabel: headline.now.meanMg === null ? "no record" : milligrams(headline.now.meanMg),
        baseline: null,
        limits: dietSodium.limits.map((limit) => ({ value: limit.mg, label: milligrams(limit.mg) })),
        ...{
          drawn: "line",
          least: 600,
          ceiling: null,
          tick: (mg) => milligrams(mg).replace(/\u00a0mg$/, ""),
        },
      },
      { x: paper.left, width: chartWidth, height: 84 },
    )
  sheet.y = Math.max(sheet.y, y)
  say(sheet, dietSodium.action, { size: 8.5, colour: ink.soft, gap: 1, after: 16 })
}
