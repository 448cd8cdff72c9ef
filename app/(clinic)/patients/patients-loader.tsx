"use client"

import dynamic from "next/dynamic"
import { Suspense } from "react"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import type { MeasureWordings } from "./measure-wordings"
import { PatientsLoading } from "./patients-loading"

const PatientsScreen = dynamic(() => import("./patients-screen").then((module) => module.PatientsScreen), {
  ssr: false,
  loading: () => <PatientsLoading />,
})

/** The panel is read and drawn in the browser: it is one table of up to tens of thousands of rows. */
export function PatientsLoader(props: {
  snapshot: SnapshotMeta
  wordings: MeasureWordings
  /** Whether the person may take the list out as a file. */
  isListTaken: boolean
}) {
  return (
    <Suspense fallback={<PatientsLoading />}>
      <PatientsScreen {...props} />
    </Suspense>
  )
}
