-- Gives the least creatinine that a 24-hour urine has to hold to be taken for complete; with less the collection is doubtful.
-- No such limit is reliable: age and little muscle mass give a low total too, so it warns and never removes a collection.
-- shape: sex 'female' or 'male' -> DOUBLE mmol per 24 hours
-- absent: null when sex is another word or missing
-- throws: nothing
-- source: Cogswell 2015, Annu Rev Nutr 35:349-387, Table 5 (survey of Land: at least 4 mmol in women and 6 in men),
--   doi:10.1146/annurev-nutr-071714-034322
--   [read: PMC5497310, Table 5; the title of the article and its first author from memory]
-- example: least_creatinine_mmol_day('female') = 4
create or replace macro least_creatinine_mmol_day(sex) as
  case sex when 'female' then cast(4 as double) when 'male' then cast(6 as double) end;
