"""The unit words that people type, English and Spanish, and the unit of ours that each one means.

A closed list: what is not here is not guessed at. Accents are taken off before the look-up.
"""

from __future__ import annotations

from assistant.answers.text import listed

_WORDS = {
    "in": "in|inch|inches|inchs|ins|pulgada|pulgadas|pulg|plg",
    "ft": "ft|foot|feet|feets|fts|pie|pies|ft_of_row|row_ft|row_foot|row_feet",
    "yd": "yd|yds|yard|yards|yarda|yardas",
    "mi": "mi|mile|miles|milla|millas",
    "mm": "mm|milimetro|milimetros|millimeter|millimeters|millimetre|millimetres",
    "cm": "cm|cms|centimetro|centimetros|centimeter|centimeters|centimetre|centimetres",
    "m": "m|mt|mts|mtr|mtrs|metro|metros|meter|meters|metre|metres",
    "km": "km|kms|kilometro|kilometros|kilometer|kilometers|kilometre|kilometres",
    "lb": "lb|lbs|pound|pounds|libra|libras",
    "oz": "oz|ozs|ounce|ounces|onza|onzas",
    "g": "g|gr|grs|gm|gms|gram|grams|gramme|grammes|gramo|gramos",
    "kg": "kg|kgs|kilo|kilos|kilogram|kilograms|kilogramo|kilogramos",
    "mg": "mg|milligram|milligrams|miligramo|miligramos",
    "t": "t|metric_ton|metric_tons|metric_tonne|metric_tonnes",
    "short_ton": "short_ton|short_tons",
    "long_ton": "long_ton|long_tons",
    "ac": "ac|acs|acre|acres",
    "ha": "ha|has|hectare|hectares|hectarea|hectareas",
    "ft^2": "sqft|ft2|ft^2|sf|sq_ft|sq_feet|sq_foot|square_foot|square_feet|ft_sq"
    "|pie_cuadrado|pies_cuadrados",
    "m^2": "m2|m^2|sqm|mt2|mts2|sq_m|square_meter|square_meters|square_metre|square_metres"
    "|metro_cuadrado|metros_cuadrados",
    "bu": "bu|bus|bushel|bushels",
    "hL": "hl|hectoliter|hectoliters|hectolitre|hectolitres|hectolitro|hectolitros",
    "row": "row|rows|opener|openers|spout|spouts|tube|tubes|hilera|hileras|surco|surcos",
    "turn": "turn|turns|rev|revs|revolution|revolutions|vuelta|vueltas|giro|giros|x",
    "seed": "seed|seeds|kernel|kernels|semilla|semillas|grano|granos|sds",
    "plant": "plant|plants|planta|plantas|pl|plts",
    "pulse": "pulse|pulses|impulse|impulses|pulso|pulsos|impulso|impulsos|ppr|p/v",
    "turn/min": "rpm|r/min",
    "mi/h": "mph|mi/h",
    "km/h": "kph|kmh|kmph|km/h",
    "h": "h|hr|hrs|hour|hours|hora|horas",
    "s": "s|sec|secs|second|seconds|segundo|segundos",
    "min": "min|mins|minute|minutes|minuto|minutos",
    "tooth": "tooth|teeth|cog|cogs|diente|dientes",
    "mark": "mark|marks|notch|notches|marca|marcas",
    "%": "%|pct|percent|out_of_100|of_100|in_100|de_cada_100|de_100",
}

UNITS: dict[str, str] = {
    **{word: unit for unit, words in _WORDS.items() for word in listed(words)},
    **{unit: unit for unit in ("short_ton", "long_ton")},
}
"""Word or phrase -> our unit."""

SEVERAL = {
    **dict.fromkeys(listed("ton|tons|tonne|tonnes"), ("short_ton", "t", "long_ton")),
    **dict.fromkeys(listed("tonelada|toneladas"), ("t", "short_ton", "long_ton")),
}
"""Words that mean another amount in another place, likeliest first."""

CHECKED = frozenset(listed("gr|grs"))
"""Words that could be another unit (grains), worth a read-back."""

PURE_LIVE = listed("pure_live_seeds|pure_live_seed|live_seeds|live_seed|pls|svp|spv")
"""Words that say that only pure live seed is meant, longest first."""

OF_ROW = listed("of_row|row|de_surco|de_hilera|surco|hilera")
"""Words beside a length that say that it runs along a row."""

EACH = listed("each|ea|apiece|c/u|cada_uno|cada_una|per_row|/row|por_hilera")

THOUSAND = tuple(
    f"{number}{seeds}"
    for number in listed("1000|1,000|1_000|thousand|mil|k")
    for seeds in ("", *listed("_seeds|_kernels|_semillas|_granos"))
)
"""What a thousand-seed weight is per."""

THOUSAND_SEED_WEIGHT = listed("tkw|tgw|tsw|pmg|pms|thousand_seed_weight")

VOLUME = frozenset(
    listed(
        "floz|fl_oz|fluid_oz|fluid_ounce|fluid_ounces|onza_liquida|cup|cups|pint|pints|pt|pts"
        "|quart|quarts|qt|qts|gal|gals|gallon|gallons|liter|liters|litre|litres|l|ml|cc|can|cans"
        "|coffee_can|coffee_cans|scoop|scoops|taza|tazas|litro|litros|galon|galones|lata|latas"
    )
)

BAGS = frozenset(
    listed("bag|bags|sack|sacks|saco|sacos|bolsa|bolsas|costal|costales|tote|totes|bulto|bultos")
)

VARIES = frozenset(listed("quintal|quintales|qq|cwt|stone|stones|arroba|arrobas|fanega|fanegas"))
"""Units whose size depends on where one is, and that no drill's paper is written in."""

TIMES_THOUSAND = listed("k|thousand|miles")
TIMES_MILLION = listed("m|million|millions|mill|millon|millones|mio")
TIMES_EITHER = listed("mil")
"""Multipliers after a number of seeds or plants; "mil" is a thousand, or short for million."""

ABOUT = listed(
    "about|around|approx|approximately|roughly|ca|circa|maybe|aprox|aproximadamente|casi|como"
    "|unas|unos|cerca_de|mas_o_menos"
)
"""Words that say that a number was not counted or read."""

LEADS = listed(
    "it_came_to|came_to|comes_to|it_says|it_reads|it_shows|it_is|it's|its|i_got|got|i_have|the_tag_says"
    "|tag_says|tag|the_scale_says|scale_says|scale_shows|says|reads|shows|weighs|pesan|pesa|son|es"
    "|ya_sin_tara|sin_tara|its_a|it's_a|it_has|has|there_are|tiene|tienen|hay|did|we_did|i_did|made"
    "|we_made|i_made|just|only|solo|same|same_again|the_same|same_mark|same_setting|same_opening"
    "|same_turns|as_before|again|igual|lo_mismo|mismo|misma|otra_vez"
)
"""Words before a value that tell no more than that it comes."""

TAILS = listed("of_em|of_them|on_it|in_all|in_total|total|altogether|exactly|row_drill|rows_drill")
"""Words behind a value that tell nothing more."""

GROSS = listed(
    "full|gross|lleno|llena|bruto|con_semilla|with_seed|with_the_tub|with_tub|with_the_pail|with_pail"
    "|with_the_bucket|with_bucket|con_cubeta|con_la_cubeta"
)
EMPTY = listed("empty|tare|tub|vacio|vacia|tara")
TUBS = listed("bucket|pail|pan|tub|cubeta|and|y|is|weighs|es|pesa")
NET = listed("tared|zeroed|net|neto|netos|ya_con_tara|con_tara|tare_off")
NOTHING = listed(
    "nothing|none|none_at_all|empty|no_seed|none_left|nothing_left|nada|zero|cero|vacio"
)
LESS = listed("less|under|menos|light|low")
LOST = listed("loss|lost|lose|die|dead|died|perdida|muertas|mortality")
LIVED = listed("survive|survived|survival|alive|live|come_up|came_up|emerge")
OPEN = listed("open|abierto|abierta")


def says_live(text: str) -> bool:
    """Whether the text says that pure live seed is meant."""
    padded = f" {text.replace('/', ' / ')} "
    return any(f" {words} " in padded for words in PURE_LIVE)
