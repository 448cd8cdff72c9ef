import type { FactKind } from "../domain/fact-kinds"
import type { FileKind } from "./file-kind"
import { allergies } from "./kinds/allergies"
import { appointments } from "./kinds/appointments"
import { diet } from "./kinds/diet"
import { labs } from "./kinds/labs"
import { medications } from "./kinds/medications"
import { patients } from "./kinds/patients"
import { problems } from "./kinds/problems"
import { readings } from "./kinds/readings"
import { staff } from "./kinds/staff"
import { visits } from "./kinds/visits"

export const fileKinds: Readonly<Record<FactKind, FileKind>> = {
  staff,
  patients,
  visits,
  appointments,
  readings,
  labs,
  medications,
  problems,
  allergies,
  diet,
}
