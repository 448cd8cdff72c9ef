import { count } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import type { ImportAnswers } from "./import-answers"
import styles from "./imports.module.css"
import { PlainTable } from "./plain-table"

/** Laboratory codes that are kept and not used. */
export function LoincCodes({ codes }: { codes: ImportAnswers["loinc"] }) {
  return (
    <Theme title="Laboratory codes on no list" id="loinc">
      <p className={styles.lead}>
        Results under these LOINC codes are stored and enter no figure. Where one of them is a test that
        counts, the records system can send it under the test&rsquo;s own name.
      </p>
      {codes === null ? <p role="status">An import is writing; the list is back in a moment.</p> : null}
      {codes && codes.length === 0 ? <p className="soft">Every code is on the list.</p> : null}
      {codes && codes.length > 0 ? (
        <PlainTable
          caption="LOINC codes on no list"
          columns={[
            { head: "LOINC code" },
            { head: "Results", isNumber: true },
            { head: "Patients", isNumber: true },
          ]}
          rows={codes.map((code) => ({
            key: code.code,
            cells: [code.code, count(code.rows), count(code.patients)],
          }))}
        />
      ) : null}
    </Theme>
  )
}
