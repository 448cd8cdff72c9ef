import { fewestForRate } from "../../figures/measure-figure"
import { reportedMeasures, type MonthReport } from "../../figures/month-report"
import { dietDefinition, measureDefinition } from "../../figures/reported-definitions"
import { reportedGroupWords } from "../../figures/reported-group-words"
import { reportedSettings } from "../../figures/reported-settings"
import { dietSodium } from "../../measures/diet-sodium"
import type { WordedMeasure } from "../../measures/types"
import { sentenceCase } from "../../speech/format"
import { heightOf, ink, keepRoom, markPlace, paper, rule, say, sayAt, turnPage, type Sheet } from "./sheet"

const termWidth = 104

const howToRead = [
  "A rate is shown with the people it is of. Where more is better, whoever was not measured counts against the clinic; the share of the measured stands beside it. Where less is better, the people not measured are told apart.",
  `The interval after a rate is the 95% interval of Wilson: how far chance alone could have moved it. It is shaded in the charts. Where fewer than ${fewestForRate} people are counted, the counts stand in place of a percentage.`,
  "A measure is drawn at the end of each month, the dotted line being the median of the first year shown. Neighbouring months share most of their people, so a run of months on one side of that line is no signal. Signals come from the chart of the facts of each month alone, in which no month shares a reading with another: a dot is a month, the dotted line the median of the baseline (the first year shown, where no other is named beside the chart), the thin lines the limits of chance, and a ring a month outside them.",
  "Rules of a signal: the longest run of months on one side of the median and how often it is crossed (Anhøj 2014), and one month outside the limits, 3-sigma p′ limits for rates (Laney 2002) and limits for individual values for the mean sodium. Not judged are the running month and months of few people.",
  "What comes first: people a safety measure finds, open actions of earlier months, unfavourable signals, changes for the worse larger than chance (exact McNemar test, all measures of the month judged together), and many not measured, in this order.",
  "A number over a chart is that of a note beneath it: a change in practice on a day. Decisions, actions and notes stand as they were when the document was made.",
  "The change since the month before is told in people: who gained, who lost, who joined and who left. The four make up the whole of it, in people and in points; beneath each stands what it rests on. Only a fact dated since then is clinical news.",
  "Clinicians and sites are not ranked: with few people in each, most of the difference between them is chance. Clinicians are compared on the site alone, where the limits of chance are drawn beside them.",
  "The document holds counts of people and names no patient. It supports licensed clinicians, who decide; local policy applies.",
]

/** How to read the document, how each measure is decided and from which source, and what the clinic set. */
export function setAppendix(sheet: Sheet, report: MonthReport): void {
  turnPage(sheet)
  heading(sheet, "How to read this", "how-to-read")
  for (const words of howToRead) say(sheet, words, { after: 6 })
  sheet.y += 12
  setGroups(sheet, report)
  heading(sheet, "Definitions and sources", "definitions")
  for (const { figure } of reportedMeasures(report)) setDefinition(sheet, figure.measure)
  setDietDefinition(sheet)
  sheet.y += 10
  heading(sheet, "Settings in force", "settings")
  setSettings(sheet, report)
}

function heading(sheet: Sheet, words: string, place: string): void {
  keepRoom(sheet, 90)
  markPlace(sheet, place)
  say(sheet, words, { tag: "H2", font: "serifBold", size: 17, gap: 0, after: 5 })
  rule(sheet, ink.ink)
  sheet.y += 10
}

/** The rate of each measure in the groups of which something is on record. */
function setGroups(sheet: Sheet, report: MonthReport): void {
  heading(sheet, "Who and where", "groups")
  const smallest = report.settings["reports.smallestGroup"]
  say(
    sheet,
    `The rate of each measure by group, with its 95% interval and the people counted; not adjusted for differences between the people of the groups. A group in which fewer than ${smallest} people stand in any part of the count is not shown, nor are those from which it could be worked out; a measure or kind of group without a row has none to show.`,
    { after: 8 },
  )
  for (const { figure, divisions } of reportedMeasures(report)) {
    const rows = reportedGroupWords(divisions)
    if (rows.length > 0) setTerms(sheet, { title: figure.measure.name, rows })
  }
  sheet.y += 10
}

function setDefinition(sheet: Sheet, measure: WordedMeasure): void {
  setTerms(sheet, { title: `${measure.name}. ${measure.question}`, rows: measureDefinition(measure) })
}

function setDietDefinition(sheet: Sheet): void {
  setTerms(sheet, { title: `${dietSodium.name}. ${dietSodium.question}`, rows: dietDefinition() })
}

function setSettings(sheet: Sheet, report: MonthReport): void {
  for (const group of reportedSettings(report.settings)) setTerms(sheet, group)
}

function setTerms(sheet: Sheet, { title, rows }: { title: string; rows: readonly [string, string][] }): void {
  const style = { size: 8.5, gap: 1 }
  const x = paper.left + termWidth
  const width = paper.right - x
  const [first] = rows
  keepRoom(sheet, 30 + (first ? heightOf(sheet, first[1], { ...style, width }) : 0))
  say(sheet, title, { tag: "H3", font: "sansBold", size: 9.5, after: 2 })
  for (const [term, said] of rows) {
    const height = Math.max(
      heightOf(sheet, term, { ...style, width: termWidth - 10 }),
      heightOf(sheet, said, { ...style, width }),
    )
    keepRoom(sheet, height)
    sayAt(sheet, term, sheet.y, { ...style, width: termWidth - 10, colour: ink.soft })
    sayAt(sheet, sentenceCase(said), sheet.y, { ...style, x, width })
    sheet.y += height + 1.5
  }
  sheet.y += 8
}
