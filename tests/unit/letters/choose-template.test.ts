import { expect, test } from "vitest"
import { languageTag, templatesInForce, type WrittenTemplate } from "../../../lib/domain/letter-template"
import { chooseTemplate } from "../../../lib/letters/choose-template"
import { chosenWords } from "../../../lib/letters/letter-words"

const written = (language: string, version = 1, body = "x"): WrittenTemplate => ({
  ...{ language, version, body, letterhead: "", subject: "S", closing: "", ownWords: "" },
  ...{ writtenBy: "Lead", writtenAt: new Date(0) },
})
const chosen = (languages: readonly string[], spoken: string | null) => {
  const { template, isProgram, isOwnLanguage } = chooseTemplate(
    languages.map((language) => written(language)),
    spoken,
  )
  return [isProgram ? "program" : template.language, isOwnLanguage]
}

test.each([
  ["the same tag before the same language", ["pt", "pt-BR"], "pt-BR", ["pt-BR", true]],
  ["the same language in another country", ["no", "pt-BR"], "pt-PT", ["pt-BR", true]],
  ["a tag in other letters", ["pt-BR"], "PT-br", ["pt-BR", true]],
  ["not the same language in another script", ["en", "zh-Hans"], "zh-TW", ["en", false]],
  ["for English the program's, where the clinic wrote none", ["es"], "en-GB", ["program", true]],
  ["for a language nobody wrote the one written first", ["es", "en"], "vi", ["es", false]],
  ["for a language that is not known the one written first", ["es", "en"], null, ["es", false]],
  ["for what is no language the one written first", ["es"], "n/a", ["es", false]],
  ["the program's where the clinic wrote none at all", [], "vi", ["program", false]],
])("%s", (_title, languages, spoken, expected) => {
  expect(chosen(languages, spoken)).toEqual(expected)
})

test.each([
  [["es"], "es-MX", "Spanish"],
  [[], "en", "English, the program’s own"],
  [[], "vi", "English, the program’s own, since none is written in Vietnamese"],
  [["es"], null, "Spanish, since the language is not known"],
  [["es"], "n/a", "Spanish, since the language is not known"],
] as const)("with letters in %o somebody who speaks %s gets: %s", (languages, spoken, words) => {
  const templates = languages.map((language) => written(language))
  expect(chosenWords(chooseTemplate(templates, spoken), spoken)).toBe(words)
})

test("the latest of each language is in force, languages as first written, and a withdrawn one is not", () => {
  const all = [
    written("es"),
    written("en"),
    written("es", 2, ""),
    written("en", 2, "later"),
    written("vi"),
    written("es", 3, "again"),
  ]

  expect(templatesInForce(all).map(({ language, version }) => [language, version])).toEqual([
    ["es", 3],
    ["en", 2],
    ["vi", 1],
  ])
  expect(templatesInForce(all.slice(0, 3)).map((one) => one.language)).toEqual(["en"])
})

// RFC 5646, appendix A, and its letter case (section 2.1.1).
test.each([
  ["de-ch-1996", "de-CH-1996"],
  ["zh-hant", "zh-Hant"],
  [" EN ", "en"],
  ["english", null],
  ["e", null],
  ["en_GB", null],
  ["", null],
])("%s as a tag is %s", (text, tag) => {
  expect(languageTag(text)).toBe(tag)
})
