import Link from "next/link"
import { count } from "../../../lib/speech/format"
import type { FileReport } from "../../../lib/domain/import-report"
import { noteLines } from "../../../lib/import/report"
import styles from "./imports.module.css"
import { PlainTable } from "./plain-table"
import { importHref } from "./search-params"

const counts = ["dataRows", "added", "changed", "unchanged", "withdrawn", "held", "rejected"] as const

/** What became of each file's rows; the outcomes add up to the rows. Beneath, what else is to tell of each file. */
export function FileCounts({ files, importId }: { files: readonly FileReport[]; importId: number | null }) {
  return (
    <div>
      <PlainTable
        caption="Rows of each file and what became of them"
        columns={[
          { head: "File" },
          ...counts.map((name) => ({ head: name === "dataRows" ? "rows" : name, isNumber: true })),
        ]}
        rows={files.map((file) => ({
          key: file.file,
          cells: [
            file.file,
            ...counts.map((name) =>
              name === "rejected" && file.rejected > 0 && importId !== null ? (
                <Link
                  key={name}
                  href={`${importHref(importId, { file: file.file })}#rejects`}
                  prefetch={false}
                >
                  {count(file.rejected)}
                </Link>
              ) : (
                <Count key={name} number={file[name]} />
              ),
            ),
          ],
        }))}
      />
      <Notes files={files} />
    </div>
  )
}

function Count({ number }: { number: number }) {
  return number === 0 ? <span className="soft">0</span> : count(number)
}

function Notes({ files }: { files: readonly FileReport[] }) {
  const noted = files.flatMap((file) => {
    const lines = noteLines(file.notes)
    return lines.length === 0 ? [] : [{ file: file.file, lines }]
  })
  if (noted.length === 0) return null
  return (
    <dl className={styles.notes}>
      {noted.map(({ file, lines }) => (
        <div key={file}>
          <dt>{file}</dt>
          {lines.map((line) => (
            <dd key={line}>{line}</dd>
          ))}
        </div>
      ))}
    </dl>
  )
}
