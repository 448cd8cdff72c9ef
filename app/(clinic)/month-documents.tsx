import type { Caller } from "../../lib/access/caller"
import { may } from "../../lib/access/permissions"
import { hrefOf } from "../_ui/href"
import { AsidePart } from "../_ui/screen"
import type { ChosenMonth } from "./months"
import { ListDownload } from "./list-download"
import styles from "./month-documents.module.css"

const kinds = [
  { format: "pdf", name: "PDF" },
  { format: "xlsx", name: "XLSX" },
  { format: "csv", name: "CSV" },
  { format: "fhir", name: "FHIR" },
] as const

const kindsOfPeople = [
  { format: "xlsx", name: "XLSX" },
  { format: "fhir", name: "FHIR" },
] as const

/** The month as files: counts for whoever may take them, lists of people for fewer, past a proof of identity. */
export function MonthDocuments({ caller, chosen }: { caller: Caller; chosen: ChosenMonth }) {
  if (!may(caller, "reports.export")) return null
  const hrefTo = (params: Record<string, string>) => hrefOf(`/api/months/${chosen.month}/documents`, params)
  return (
    <AsidePart title="Documents">
      <ul className={styles.kinds} aria-label="Documents of the month">
        {kinds.map(({ format, name }) => (
          <li key={format}>
            <a download href={hrefTo({ format })}>
              {name}
            </a>
          </li>
        ))}
      </ul>
      {may(caller, "people.export") ? (
        <>
          <p className={styles.note}>With lists of people:</p>
          <div className={styles.kinds}>
            {kindsOfPeople.map(({ format, name }) => (
              <ListDownload
                key={format}
                caller={caller}
                needs="people.export"
                href={hrefTo({ format, people: "yes" })}
                place="month"
              >
                {name}
              </ListDownload>
            ))}
          </div>
        </>
      ) : null}
    </AsidePart>
  )
}
