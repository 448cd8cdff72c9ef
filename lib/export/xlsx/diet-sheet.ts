import type { DietFigure, DietPoint } from "../../figures/diet-figure"
import type { MonthReport } from "../../figures/month-report"
import { dietSodium } from "../../measures/diet-sodium"
import { sentenceCase } from "../../speech/format"
import { day, text, whole } from "./cells"
import { tableSheet, type Column, type XlsxSheet } from "./sheet"

const columns: readonly Column<DietPoint & { series: string }>[] = [
  { head: "As it stands at", width: 16, cell: ({ asOf }) => day(asOf) },
  { head: "Way of asking", width: 24, cell: ({ series }) => text(sentenceCase(series)) },
  { head: "People with a record", width: 12, cell: ({ n }) => whole(n) },
  { head: "Mean, mg a day", width: 12, cell: ({ meanMg }) => whole(meanMg) },
  { head: "95% interval from", width: 12, cell: ({ interval }) => whole(interval?.low ?? null) },
  { head: "95% interval to", width: 12, cell: ({ interval }) => whole(interval?.high ?? null) },
]

/** The mean sodium month by month, each way of asking by itself. */
export function dietSheet(report: MonthReport, { series }: DietFigure): XlsxSheet {
  const { name, question } = dietSodium
  const rows = series.flatMap((one) => one.points.map((point) => ({ ...point, series: one.name })))
  return tableSheet(report, { name, title: `${name}. ${question}`, columns, rows })
}
