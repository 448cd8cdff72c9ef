/** Where invented people come from: names by custom, a language, and how race and ethnicity would be answered. */
export type Background = {
  weight: number
  languages: readonly { tag: string; weight: number }[]
  race: string
  raceCode: string
  ethnicity: string
  female: readonly string[]
  male: readonly string[]
  family: readonly string[]
}

const notHispanic = "Not Hispanic or Latino"

export const backgrounds: readonly Background[] = [
  {
    weight: 46,
    languages: [{ tag: "en", weight: 1 }],
    race: "White",
    raceCode: "2106-3",
    ethnicity: notHispanic,
    female: list(
      "Margaret, Ruth, Carol, Janet, Elaine, Shirley, Brenda, Alice, Nora, Heather, Susan, Diane, Frances, Maeve, Ingrid, Lorna",
    ),
    male: list(
      "Arthur, Dennis, Walter, Raymond, Gerald, Harold, Peter, Stuart, Colin, Tomas, Roger, Alan, Leonard, Ewan, Patrick, Neil",
    ),
    family: list(
      "Brandvik, Hollis, Pemberton, Ashdown, Carrow, Dunmore, Fairley, Garside, Hathersage, Inchbald, Kershaw, Lomax, Merrick, O'Rourke, Pell, Quayle, Rudd, Sallow, Thackeray, Underhay, Vane, Wetherby, Yardley, Stenhouse",
    ),
  },
  {
    weight: 17,
    languages: [
      { tag: "en", weight: 30 },
      { tag: "fr", weight: 1 },
      { tag: "ht", weight: 2 },
    ],
    race: "Black or African American",
    raceCode: "2054-5",
    ethnicity: notHispanic,
    female: list(
      "Denise, Yvonne, Loretta, Simone, Gwendolyn, Marcia, Odette, Philippa, Rosalind, Thelma, Claudette, Beverley",
    ),
    male: list(
      "Clarence, Winston, Desmond, Julius, Marcus, Nathaniel, Curtis, Lionel, Errol, Cedric, Horace, Isaiah",
    ),
    family: list(
      "Beaumont, Caldwell, Dorsey, Fontaine, Gaines, Hibbert, Joseph, Lafleur, Mosley, Nesbitt, Pryce, Rawlins, Tolliver, Winfield, Baptiste, Ambrose",
    ),
  },
  {
    weight: 14,
    languages: [
      { tag: "es", weight: 6 },
      { tag: "es-419", weight: 1 },
      { tag: "en", weight: 6 },
    ],
    race: "Other Race",
    raceCode: "2131-1",
    ethnicity: "Hispanic or Latino",
    female: list(
      "María, Carmen, Luz, Rosario, Inés, Graciela, Yolanda, Esperanza, Consuelo, Beatriz, Marisol, Elvira",
    ),
    male: list(
      "Ramón, Ernesto, Luis, Joaquín, Rafael, Héctor, Esteban, Rubén, Ignacio, Andrés, Efraín, Gilberto",
    ),
    family: list(
      "Albarrán, Bustamante, Carrizo, Del Valle, Echeverría, Fuentes, Galindo, Ibarra, Lozano, Montalvo, Núñez, Ocampo, Peralta, Quiroga, Salcedo, Zamora",
    ),
  },
  {
    weight: 6,
    languages: [
      { tag: "hi", weight: 2 },
      { tag: "ur", weight: 2 },
      { tag: "pa", weight: 2 },
      { tag: "bn", weight: 2 },
      { tag: "gu", weight: 1 },
      { tag: "ta", weight: 1 },
      { tag: "en", weight: 7 },
    ],
    race: "Asian",
    raceCode: "2028-9",
    ethnicity: notHispanic,
    female: list("Sunita, Farida, Lakshmi, Parveen, Usha, Shabnam, Kamala, Nasreen, Jaswinder, Rukhsana"),
    male: list("Rajesh, Imran, Harbhajan, Mohammed, Suresh, Anwar, Balwinder, Iqbal, Mahesh, Tariq"),
    family: list(
      "Ahluwalia, Bhattacharya, Chaudhry, Desai, Gill, Hussain, Iyer, Kapadia, Malhotra, Rahman, Sandhu, Venkatesan",
    ),
  },
  {
    weight: 5,
    languages: [
      { tag: "zh", weight: 4 },
      { tag: "yue", weight: 2 },
      { tag: "vi", weight: 3 },
      { tag: "ko", weight: 1 },
      { tag: "en", weight: 4 },
    ],
    race: "Asian",
    raceCode: "2028-9",
    ethnicity: notHispanic,
    female: list("Mei-Ling, Xiu, Thu, Ngoc, Lan, Hua, Soon-Ja, Yee, Linh, Wai-Man"),
    male: list("Jian, Wei, Minh, Duc, Chung, Kwok, Bao, Sang-Ho, Tuan, Hao"),
    family: list("Cheung, Dang, Fong, Huynh, Kwan, Liang, Luong, Mak, Pham, Seo, Tran, Zhao"),
  },
  {
    weight: 3,
    languages: [
      { tag: "fil", weight: 3 },
      { tag: "en", weight: 4 },
      { tag: "sm", weight: 1 },
    ],
    race: "Native Hawaiian or Other Pacific Islander",
    raceCode: "2076-8",
    ethnicity: notHispanic,
    female: list("Corazon, Leilani, Rowena, Sina, Imelda, Tala"),
    male: list("Rodrigo, Sione, Benigno, Tavita, Danilo, Makoa"),
    family: list("Bautista, Dimaandal, Faleolo, Kahananui, Manalo, Tuilagi, Villanueva"),
  },
  {
    weight: 4,
    languages: [
      { tag: "ar", weight: 5 },
      { tag: "fa", weight: 2 },
      { tag: "tr", weight: 1 },
      { tag: "en", weight: 3 },
    ],
    race: "White",
    raceCode: "2106-3",
    ethnicity: notHispanic,
    female: list("Amal, Samira, Leyla, Huda, Parisa, Zeynep, Widad"),
    male: list("Khalil, Youssef, Behrouz, Nabil, Emre, Faisal, Hossein"),
    family: list("Abboud, Darwish, Farahani, Haddadin, Karimi, Nasser, Sabbagh, Yilmaz"),
  },
  {
    weight: 3,
    languages: [
      { tag: "pl", weight: 3 },
      { tag: "uk", weight: 2 },
      { tag: "ru", weight: 2 },
      { tag: "pt", weight: 1 },
      { tag: "en", weight: 2 },
    ],
    race: "White",
    raceCode: "2106-3",
    ethnicity: notHispanic,
    female: list("Halina, Oksana, Ludmila, Bożena, Fátima, Iryna"),
    male: list("Zbigniew, Mykola, Viktor, Kazimierz, António, Taras"),
    family: list("Bondarenko, Czajka, Kovalenko, Łukasik, Pereira, Sidorov, Wójcik"),
  },
  {
    weight: 1.5,
    languages: [
      { tag: "so", weight: 3 },
      { tag: "am", weight: 2 },
      { tag: "yo", weight: 1 },
      { tag: "en", weight: 2 },
    ],
    race: "Black or African American",
    raceCode: "2054-5",
    ethnicity: notHispanic,
    female: list("Hodan, Almaz, Folake, Ifrah, Tigist"),
    male: list("Abdirahman, Bekele, Olumide, Yusuf, Dawit"),
    family: list("Adeleke, Farah, Gebre, Nur, Okonkwo, Tesfaye, Warsame"),
  },
  {
    weight: 1,
    languages: [
      { tag: "en", weight: 9 },
      { tag: "nv", weight: 1 },
    ],
    race: "American Indian or Alaska Native",
    raceCode: "1002-5",
    ethnicity: notHispanic,
    female: list("Winona, Darlene, Lucille"),
    male: list("Emerson, Leland, Virgil"),
    family: list("Begay, Blackwood, Tallman, Yellowhorse"),
  },
]

function list(names: string): readonly string[] {
  return names.split(", ")
}
