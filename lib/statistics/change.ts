/** Counts of one measure in two months; "continuing" are those in both denominators. */
export type ChangeCounts = {
  earlierMet: number
  earlierTotal: number
  laterMet: number
  laterTotal: number
  continuing: number
  gained: number
  lost: number
  left: number
  leftMet: number
  joined: number
  joinedMet: number
}

export type Change =
  | { ok: true; total: number; gained: number; lost: number; left: number; joined: number }
  | { ok: false; reason: "empty-denominator" | "no-common-patients" }

/**
 * Splits the change of a rate between two months into people who gained it, lost it, left and joined.
 *
 * Shape: whole numbers that agree with each other (see Throws); the answer's parts are ratios whose sum is the
 * later rate minus the earlier one: gained >= 0, lost <= 0, left and joined of either sign.
 * Absent: no denominator in a month, or nobody in both.
 * Throws: RangeError when the counts contradict each other, for a part would then belong to nobody.
 * Source: algebraic identity, gained and lost over the continuing, leavers (N_L / N_A)(p_C,A - p_L), joiners
 * (N_J / N_B)(p_J - p_C,B); the rate and mix parts after Kitagawa EM, 1955, J Am Stat Assoc 50:1168-1194.
 * Example: 124/200 to 140/210 with 185 in both, 19 gained, 9 lost, 15 left (7 met), 25 joined (13 met):
 * +10.270, -4.865, +1.243 and -1.982 points, together +4.667.
 */
export function splitChange(counts: ChangeCounts): Change {
  refuseContradiction(counts)
  if (counts.earlierTotal === 0 || counts.laterTotal === 0) return { ok: false, reason: "empty-denominator" }
  if (counts.continuing === 0) return { ok: false, reason: "no-common-patients" }
  const earlierShare = (counts.earlierMet - counts.leftMet) / counts.continuing
  const laterShare = (counts.laterMet - counts.joinedMet) / counts.continuing
  return {
    ok: true,
    total: counts.laterMet / counts.laterTotal - counts.earlierMet / counts.earlierTotal,
    gained: counts.gained / counts.continuing,
    lost: -counts.lost / counts.continuing,
    left: (counts.left * earlierShare - counts.leftMet) / counts.earlierTotal,
    joined: (counts.joinedMet - counts.joined * laterShare) / counts.laterTotal,
  }
}

function refuseContradiction(counts: ChangeCounts): void {
  const isWhole = Object.values(counts).every((count) => Number.isInteger(count) && count >= 0)
  const agrees =
    counts.earlierTotal === counts.continuing + counts.left &&
    counts.laterTotal === counts.continuing + counts.joined &&
    counts.earlierMet - counts.leftMet + counts.gained - counts.lost === counts.laterMet - counts.joinedMet
  if (!isWhole || !agrees) throw new RangeError("splitChange requires counts that add up")
}
