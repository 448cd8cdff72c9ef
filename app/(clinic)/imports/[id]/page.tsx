import type { Metadata } from "next"
import { notFound } from "next/navigation"
import { Screen, Theme } from "../../../_ui/screen"
import { site } from "../../../_http/site"
import { countRejectedRows, findImport, listRejectedRows } from "../../../../lib/store/imports"
import { FileCounts } from "../file-counts"
import { ImportAside } from "../import-aside"
import { importSentence } from "../import-words"
import { Poll } from "../poll"
import { Progress } from "../progress"
import { Question } from "../question"
import { RejectedRows, rejectsPerPage } from "../rejected-rows"
import { ImportId, parseImportView } from "../search-params"
import { isUnderWay } from "../working"
import styles from "../imports.module.css"

export const metadata: Metadata = { title: "Import" }

export default async function ImportPage(props: PageProps<"/imports/[id]">) {
  const id = ImportId.safeParse((await props.params).id)
  const view = parseImportView(await props.searchParams)
  const { client } = site()
  const entry = id.success ? await findImport(client, id.data) : null
  if (!entry) notFound()
  const [clinic, reasons, rows] = await Promise.all([
    client.clinic.findUnique({ where: { id: 1 } }),
    countRejectedRows(client, entry.id),
    listRejectedRows(client, {
      importId: entry.id,
      take: rejectsPerPage + 1,
      after: view.after ?? undefined,
      file: view.file ?? undefined,
    }),
  ])
  return (
    <Screen aside={<ImportAside entry={entry} timeZone={clinic?.timeZone ?? "UTC"} />}>
      <Poll isOn={isUnderWay(entry)} />
      <div className={styles.first}>
        {isUnderWay(entry) ? <Progress entry={entry} /> : null}
        {entry.message === null ? null : <p className={styles.message}>{entry.message}</p>}
        {entry.question && entry.status === "asks" ? (
          <Question entry={entry} question={entry.question} />
        ) : null}
      </div>
      {entry.files.length === 0 ? null : (
        <Theme title="File by file">
          <p className={styles.sentence}>{importSentence(entry)}</p>
          <FileCounts files={entry.files} importId={entry.id} />
        </Theme>
      )}
      {entry.files.length === 0 ? null : (
        <RejectedRows entry={entry} view={view} reasons={reasons} rows={rows} />
      )}
    </Screen>
  )
}
