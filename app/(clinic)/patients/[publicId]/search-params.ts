import { z } from "zod"
import { single, type RawSearch } from "../../../_ui/href"
import { MonthParam } from "../../search-params"

const PatientView = z.object({ month: MonthParam })

export type PatientView = z.infer<typeof PatientView>

export function parsePatientView(raw: RawSearch): PatientView {
  return PatientView.parse(single(raw))
}

/** The opaque id of a person in addresses; anything else is nobody. */
export const PublicId = z.uuid()
