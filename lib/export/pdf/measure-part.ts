import { figureSentence, rateWords, stripOf } from "../../figures/figure-words"
import type { MonthReport, ReportedMeasure } from "../../figures/month-report"
import { sentenceCase } from "../../speech/format"
import { measureActionLines } from "./action-lines"
import { courseOf, heightOfCourse, setCourse } from "./course"
import { heightOfLines, setEach } from "./lines"
import { noteLines } from "./note-lines"
import { contentWidth, heightOf, ink, keepRoom, markPlace, paper, say, type Sheet } from "./sheet"
import { drawStrip, heightOfStrip } from "./strip"

const name = { font: "sansBold", size: 9, colour: ink.accent } as const
const head = { font: "serif", size: 13, gap: 2 } as const
const fine = { size: 8.5, gap: 1, colour: ink.soft } as const

/** A measure or the diet as it is to be set: how much room it takes, so that a heading over it stays with it. */
export type Part = { height: number; set: () => void }

/** One measure of the month: sentence and rate, where people stand, its lines, why it changed, and what was decided. */
export function measurePart(sheet: Sheet, measure: ReportedMeasure, report: MonthReport): Part {
  const { figure } = measure
  const sentence = figureSentence(figure)
  const rates = rateWords(figure).map(sentenceOf).join(" \u00b7 ")
  const strip = { parts: stripOf(figure), x: paper.left, width: contentWidth }
  const course = figure.rate.total > 0 ? courseOf(measure) : null
  const beneath = [...noteLines(measure.notes), ...measureActionLines(measure.actions, report)]
  const heights = [
    heightOf(sheet, figure.measure.name, name) + 2,
    heightOf(sheet, sentence, head) + 3,
    heightOf(sheet, rates, {}) + 6,
    course === null ? 0 : heightOfStrip(sheet, strip) + heightOfCourse(sheet, course),
    course === null ? 0 : heightOf(sheet, figure.measure.action, fine) + 4,
    heightOfLines(sheet, beneath),
  ]
  const height = heights.reduce((sum, one) => sum + one, 0)
  return {
    height,
    set: () => {
      keepRoom(sheet, height)
      markPlace(sheet, figure.measure.id)
      say(sheet, figure.measure.name, { ...name, tag: "H3", after: 2 })
      say(sheet, sentence, { ...head, after: 3 })
      say(sheet, rates, { colour: ink.soft, after: 6 })
      if (course !== null) {
        drawStrip(sheet, strip)
        setCourse(sheet, course)
        say(sheet, figure.measure.action, { ...fine, after: 4 })
      }
      setEach(sheet, beneath)
      sheet.y += 18
    },
  }
}

function sentenceOf(phrase: string): string {
  return sentenceCase(phrase.replace(/\.$/, ""))
}
