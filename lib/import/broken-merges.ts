/**
 * How many patients name a survivor that cannot be followed: themselves, someone who in the end is merged into them again
 * (a circle), or nobody known. Their records stay as they are, without the link.
 */
export function countBrokenMerges(
  survivorByPatient: ReadonlyMap<string, string>,
  isKnown: (patientId: string) => boolean,
): number {
  let broken = 0
  for (const [patient, survivor] of survivorByPatient)
    if (!isKnown(survivor) || leadsBack(patient, survivorByPatient)) broken += 1
  return broken
}

function leadsBack(patient: string, survivorByPatient: ReadonlyMap<string, string>): boolean {
  const seen = new Set<string>()
  for (let next = survivorByPatient.get(patient); next !== undefined; next = survivorByPatient.get(next)) {
    if (next === patient) return true
    if (seen.has(next)) return false
    seen.add(next)
  }
  return false
}
