import type { Metadata } from "next"
import { notFound } from "next/navigation"
import { may } from "../../../../../../lib/access/permissions"
import { inCallerScope } from "../../../../../_http/in-caller-scope"
import { recordedOnce } from "../../../../../_http/recorded"
import { requireScreenUser } from "../../../../../_http/require-user"
import { Screen } from "../../../../../_ui/screen"
import { site } from "../../../../../_http/site"
import { findImport } from "../../../../../../lib/store/imports"
import { findRejectedLine, findSourceRow } from "../../../../../../lib/store/source-rows"
import { SourcePlace } from "../../../search-params"
import { SourceAside, SourceCells, SourceVersions } from "../../../source-row"

export const metadata: Metadata = { title: "Source row" }

export default async function SourceRowPage(props: PageProps<"/imports/[id]/[file]/[line]">) {
  const caller = await requireScreenUser("people.see")
  const place = SourcePlace.safeParse(await props.params)
  if (!place.success) notFound()
  const { id: importId, file: kind, line } = place.data
  const { client } = site()
  const clinic = await client.clinic.findUnique({ where: { id: 1 } })
  const timeZone = clinic?.timeZone ?? "UTC"
  const [entry, row] = await Promise.all([
    findImport(client, importId),
    inCallerScope((own) => findSourceRow(own, { kind, importId, line, timeZone })),
  ])
  const file = entry?.files.find((one) => one.kind === kind)?.file ?? `${kind}.csv`
  const rejected =
    row || !may(caller, "imports.rows")
      ? null
      : await inCallerScope((own) => findRejectedLine(own, { file, importId, line }))
  const about = { object: "row", objectId: `${importId}/${kind}/${line}` }
  if (!entry || (!row && !rejected)) {
    await recordedOnce(caller, { action: "access.refuse", outcome: "not found", ...about })
    notFound()
  }
  await recordedOnce(caller, {
    ...{ action: "source-row.open", ...about },
    people: row?.publicId ? [row.publicId] : [],
  })
  return (
    <Screen aside={<SourceAside {...{ entry, file, line, timeZone }} publicId={row?.publicId ?? null} />}>
      <SourceCells row={row} rejected={rejected} />
      {row ? <SourceVersions kind={kind} row={row} own={{ importId, line }} timeZone={timeZone} /> : null}
    </Screen>
  )
}
