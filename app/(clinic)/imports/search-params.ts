import { z } from "zod"
import { hrefOf, single, type RawSearch } from "../../_ui/href"
import { factKinds } from "../../../lib/domain/fact-kinds"
import { RowNumber } from "../../../lib/domain/row-number"
import { TypedText } from "../../../lib/domain/typed-text"

const number = z.coerce.number().int().positive().nullable().catch(null).default(null)

const ImportsView = z.object({ before: RowNumber.nullable().catch(null).default(null) })

/** The history of imports, from before an import on; null is the latest. */
export type ImportsView = z.infer<typeof ImportsView>

export function parseImportsView(raw: RawSearch): ImportsView {
  return ImportsView.parse(single(raw))
}

export function importsHref(view: ImportsView): string {
  return hrefOf("/imports", view)
}

const ImportView = z.object({ after: number, file: TypedText.max(300).nullable().catch(null).default(null) })

/** One import's rejected rows: of one file or all, after a row already seen. */
export type ImportView = z.infer<typeof ImportView>

export function parseImportView(raw: RawSearch): ImportView {
  return ImportView.parse(single(raw))
}

export function importHref(id: number, view: Partial<ImportView> = {}): string {
  return hrefOf(`/imports/${id}`, { file: view.file ?? null, after: view.after ?? null })
}

/** A row of an extract in addresses: the import, the file without its ending, the line. */
export const SourcePlace = z.object({
  id: RowNumber,
  file: z.enum(factKinds),
  line: RowNumber,
})

export const ImportId = RowNumber

export function sourceRowHref(place: { importId: number; kind: string; line: number }): string {
  return `/imports/${place.importId}/${place.kind}/${place.line}`
}
