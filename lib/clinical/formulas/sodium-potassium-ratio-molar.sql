-- Gives the molar ratio of sodium to potassium in a diet or a urine; screens label it "molar".
-- shape: sodium_mg and potassium_mg mg over the same days (above 0) -> DOUBLE mmol per mmol
-- absent: null when a value is missing or potassium is not above 0
-- throws: nothing
-- source: Prohaska 2022, Standard atomic weights of the elements 2021 (sodium 22.990, potassium 39.098; here 22.99, 39.10),
--   Pure Appl Chem 94:573-600, Table 1, doi:10.1515/pac-2019-0603
--   [from memory]
-- example: sodium_potassium_ratio_molar(2300, 2600) = 1.5045
create or replace macro sodium_potassium_ratio_molar(sodium_mg, potassium_mg) as
  case when potassium_mg > 0 then (cast(sodium_mg as double) / 22.99) / (cast(potassium_mg as double) / 39.10) end;
