-- Gives the ratio of sodium to potassium by weight; screens label it "by weight". The molar ratio is 1.70 times as high.
-- shape: sodium_mg and potassium_mg mg over the same days (above 0) -> DOUBLE mg per mg
-- absent: null when a value is missing or potassium is not above 0
-- throws: nothing
-- source: by definition, 2026: a quotient of two masses, no table
-- example: sodium_potassium_ratio_by_weight(2300, 2600) = 0.8846
create or replace macro sodium_potassium_ratio_by_weight(sodium_mg, potassium_mg) as
  case when potassium_mg > 0 then cast(sodium_mg as double) / cast(potassium_mg as double) end;
