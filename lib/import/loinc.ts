/**
 * Is the text a well-formed LOINC code: up to seven digits, a hyphen and the right Mod 10 check digit?
 * Source: LOINC Users' Guide, "Calculating Mod 10 check digits". Example: 12345-5 is, 12345-6 is not.
 */
export function isLoinc(text: string): boolean {
  const match = /^(\d{1,7})-(\d)$/.exec(text)
  return match?.[1] !== undefined && checkDigit(match[1]) === Number(match[2])
}

function checkDigit(digits: string): number {
  const fromRight = [...digits].reverse()
  // The digits at odd places are read as one number, from the right, and doubled; those at even places stand before it.
  const odd = fromRight.filter((_, index) => index % 2 === 0).join("")
  const even = fromRight.filter((_, index) => index % 2 === 1).join("")
  const joined = even + String(Number(odd) * 2)
  const sum = [...joined].reduce((total, digit) => total + Number(digit), 0)
  return (10 - (sum % 10)) % 10
}
