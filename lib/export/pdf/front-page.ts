import { withSettings } from "../../domain/setting-words"
import type { MeasureAction } from "../../domain/measure-actions"
import { firstWords, type First } from "../../figures/first-lines"
import type { MonthReport } from "../../figures/month-report"
import { reportStanding } from "../../figures/report-standing"
import { measureName } from "../../measures/measure-name"
import { count, counted, month } from "../../speech/format"
import { actionLines, softLine } from "./action-lines"
import { setEach, type Line } from "./lines"
import { contentWidth, ink, keepRoom, paper, rule, say, sayAt, type Sheet } from "./sheet"

/** Clinic, month and day; who closed it; the panel; what comes first; and what the meetings left open or decided. */
export function setFrontPage(sheet: Sheet, report: MonthReport): void {
  const { meeting } = report
  say(sheet, report.clinicName, { font: "sansBold", size: 10.5, colour: ink.accent, after: 4 })
  say(sheet, month(report.month), { tag: "H1", font: "serifBold", size: 30, gap: 0, after: 4 })
  for (const words of [...reportStanding(report), ...report.closing])
    say(sheet, words, { colour: ink.soft, size: 10 })
  sheet.y += 12
  setPanel(sheet, report)
  sheet.y += 10
  setPart(sheet, "First this month", firstLines(report.first))
  if (meeting.openBefore.length + meeting.doneSince > 0)
    setPart(sheet, "Open from earlier months", [
      ...(meeting.openBefore.length === 0
        ? [softLine("None is open.")]
        : linesOf(meeting.openBefore, report)),
      softLine(`${counted(meeting.doneSince, "action", "actions")} of earlier months done since.`),
    ])
  if (meeting.ofMonth.length > 0)
    setPart(sheet, `Decisions and actions of ${month(report.month)}`, linesOf(meeting.ofMonth, report))
}

function setPart(sheet: Sheet, title: string, lines: readonly Line[]): void {
  keepRoom(sheet, 60)
  say(sheet, title, { tag: "H2", font: "serifBold", size: 13, gap: 0, after: 4 })
  rule(sheet, ink.ink)
  sheet.y += 6
  setEach(sheet, lines)
  sheet.y += 12
}

function firstLines({ lines, further }: First): Line[] {
  if (lines.length === 0) return [softLine("Nothing stands out this month.")]
  const told = lines.map(({ parts }, place): Line => {
    const whole = parts.flatMap(({ leads }) => (leads?.to === "whole" ? [leads.measureId] : []))
    return {
      cells: [
        { text: `${place + 1}`, x: paper.left, width: 12, font: "sansBold", gap: 1 },
        {
          text: firstWords(parts),
          ...{ x: paper.left + 14, width: contentWidth - 14, gap: 1 },
          ...(whole[0] === undefined ? {} : { goTo: whole[0] }),
        },
      ],
      after: 4,
    }
  })
  if (further === 0) return told
  return [...told, softLine(`${counted(further, "further measure stands", "further measures stand")} out.`)]
}

function linesOf(actions: readonly MeasureAction[], report: MonthReport): Line[] {
  return actionLines(actions, {
    timeZone: report.timeZone,
    nameOf: ({ measureId }) => measureName(measureId),
  })
}

function setPanel(sheet: Sheet, { panel, settings }: MonthReport): void {
  const cells = [
    [panel.in_panel, "in the panel"],
    [panel.ckd_before_replacement, "with CKD, not on dialysis or transplanted"],
    [panel.without_pressure, withSettings("with no pressure in {bp.windowMonths} months", settings)],
    [panel.without_urine_albumin, "with no urine albumin in 12 months"],
    [panel.without_diet_record, "with no diet record in 12 months"],
    [panel.kidney_unknown, "whose kidney status is not known"],
  ] as const
  const width = contentWidth / 3
  for (const row of [cells.slice(0, 3), cells.slice(3)]) {
    const heights = row.map(([number, words], place) => {
      const x = paper.left + place * width
      const first = sayAt(sheet, count(number), sheet.y, { x, width, font: "serifBold", size: 15, gap: 0 })
      const beneath = { x, width: width - 14, size: 8.5, colour: ink.soft, gap: 0 }
      return first + sayAt(sheet, words, sheet.y + first, beneath)
    })
    sheet.y += Math.max(...heights) + 6
  }
}
