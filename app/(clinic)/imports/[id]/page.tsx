import type { Metadata } from "next"
import { notFound } from "next/navigation"
import { may } from "../../../../lib/access/permissions"
import { inCallerScope } from "../../../_http/in-caller-scope"
import { recordedOnce } from "../../../_http/recorded"
import { requireScreenUser } from "../../../_http/require-user"
import { site } from "../../../_http/site"
import { Screen } from "../../../_ui/screen"
import { countRejectedRows, findImport, listRejectedRows } from "../../../../lib/store/imports"
import { ImportAside } from "../import-aside"
import { ImportMatter } from "../import-matter"
import { Poll } from "../../../_ui/poll"
import { rejectsPerPage } from "../rejected-rows"
import { ImportId, parseImportView } from "../search-params"
import { isUnderWay } from "../working"

export const metadata: Metadata = { title: "Import" }

export default async function ImportPage(props: PageProps<"/imports/[id]">) {
  const caller = await requireScreenUser("imports.see")
  const id = ImportId.safeParse((await props.params).id)
  const view = parseImportView(await props.searchParams)
  const { client } = site()
  const entry = id.success ? await findImport(client, id.data) : null
  if (!entry) notFound()
  const mayReadRows = may(caller, "imports.rows")
  const page = {
    ...{ importId: entry.id, take: rejectsPerPage + 1 },
    ...{ after: view.after ?? undefined, file: view.file ?? undefined },
  }
  const [clinic, reasons, rows] = await Promise.all([
    client.clinic.findUnique({ where: { id: 1 } }),
    inCallerScope((own) => countRejectedRows(own, entry.id)),
    mayReadRows ? inCallerScope((own) => listRejectedRows(own, page)) : [],
  ])
  if (rows.length > 0)
    await recordedOnce(caller, { action: "import.open", object: "import", objectId: String(entry.id) })
  return (
    <Screen aside={<ImportAside entry={entry} timeZone={clinic?.timeZone ?? "UTC"} />}>
      <Poll isOn={isUnderWay(entry)} />
      <ImportMatter {...{ caller, entry, view, reasons, rows, mayReadRows }} />
    </Screen>
  )
}
