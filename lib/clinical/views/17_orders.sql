-- Every order with whether it counts at all, for any purpose, and if not why. Every column of the raw orders is passed on.
-- An order without the as-needed mark is as needed when its text says so. A route word nobody knows counts and is marked.
with routes as (
  select
    w.text as route,
    coalesce(bool_or(p.meaning = 'uncounted route'), false) as is_uncounted,
    coalesce(bool_or(p.meaning = 'counted route'), false) as is_counted
  from text_words as w
  left join text_phrases as p on p.domain = w.domain and p.text = w.text
  where w.domain = 'route'
  group by w.text
),
uncounted_codes as (
  select distinct o.code
  from orders_raw as o
  join route_words as r on r.applies_to = 'atc' and starts_with(upper(trim(o.code)), r.word)
  where o.code_system = 'atc'
),
marked as (
  select
    o.*,
    case
      when coalesce(o.as_needed, t.is_as_needed) then 'as needed'
      when routes.is_uncounted then 'route'
      when uncounted_codes.code is not null then 'ATC group'
      when t.has_uncounted_route then 'text'
    end as not_counted_reason,
    routes.route is not null and not routes.is_uncounted and not routes.is_counted as is_route_unknown
  from orders_raw as o
  join text_ingredients as t on t.text = o.drug
  left join routes on routes.route = o.route
  left join uncounted_codes on uncounted_codes.code = o.code and o.code_system = 'atc'
)
select marked.*, marked.not_counted_reason is null as is_counted
from marked
