import type { Metadata } from "next"
import { notFound } from "next/navigation"
import { requireScreenUser } from "../../../_http/require-user"
import { dietSodium } from "../../../../lib/measures/diet-sodium"
import { findMeasure } from "../../../../lib/measures/index"
import { wordedMeasure } from "../../../../lib/measures/worded-measures"
import { EmptyClinic } from "../../empty-clinic"
import { chooseMonths, underSettingsThen } from "../../months"
import { peopledSnapshot } from "../../snapshot"
import { parseMeasureView } from "../search-params"
import { DietScreen } from "./diet-screen"
import { MeasureScreen } from "./measure-screen"

export async function generateMetadata({ params }: PageProps<"/measures/[id]">): Promise<Metadata> {
  const { id } = await params
  return { title: id === dietSodium.id ? dietSodium.name : (findMeasure(id)?.name ?? "No such measure") }
}

export default async function MeasurePage({ params, searchParams }: PageProps<"/measures/[id]">) {
  const caller = await requireScreenUser("figures.see")
  const { id } = await params
  const measure = findMeasure(id)
  if (!measure && id !== dietSodium.id) notFound()
  const view = parseMeasureView(await searchParams)
  const current = await peopledSnapshot()
  if (!current) return <EmptyClinic />
  const chosen = chooseMonths(current, view)
  const snapshot = underSettingsThen(current, chosen)
  if (!measure) return <DietScreen caller={caller} snapshot={snapshot} chosen={chosen} view={view} />
  const worded = wordedMeasure(measure, snapshot.settings)
  return <MeasureScreen caller={caller} measure={worded} snapshot={snapshot} chosen={chosen} view={view} />
}
