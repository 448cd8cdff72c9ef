import { expect, test } from "vitest"
import { fullName, listName } from "../../../lib/speech/person-name"

test("says a name by the family in a list, and else as it is spoken", () => {
  const person = { given_name: "Ana", family_name: "Ortiz" }

  expect(listName(person)).toBe("Ortiz, Ana")
  expect(fullName(person)).toBe("Ana Ortiz")
})

test("says the one name there is, and of none that it is not on record", () => {
  expect(listName({ given_name: null, family_name: "Ortiz" })).toBe("Ortiz")
  expect(fullName({ given_name: "Ana", family_name: "" })).toBe("Ana")
  expect(listName({ given_name: null, family_name: null })).toBe("Name not on record")
  expect(fullName(null)).toBe("Name not on record")
})
