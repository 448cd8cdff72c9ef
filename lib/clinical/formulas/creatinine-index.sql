-- Gives the share of the expected creatinine that a 24-hour urine holds; under 0.7 the collection is probably incomplete.
-- A low muscle mass gives a low index too, so it warns and never removes a collection.
-- shape: creatinine_mg_day mg per 24 hours (0 or more), weight_kg kg (20 to 300) -> DOUBLE share
-- absent: null when a value is missing or weight is not above 0
-- throws: nothing
-- source: Joossens 1984, Monitoring salt intake of the population: methodological considerations, in: Surveillance of the
--   dietary habits of the population with regard to cardiovascular diseases, Euronut report 2:61-73 (limit 0.7); tabulated so in
--   PMC5497310, Table 5
--   [read: PMC5497310, Table 5; the report itself from memory]
-- example: creatinine_index(1176, 80) = 0.7
create or replace macro creatinine_index(creatinine_mg_day, weight_kg) as
  case when weight_kg > 0 then cast(creatinine_mg_day as double) / (21 * cast(weight_kg as double)) end;
