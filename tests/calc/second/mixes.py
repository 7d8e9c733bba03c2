"""Mixes once more: each species by itself."""

from fractions import Fraction

from scipy.stats import chi2_contingency

from tests.calc.second.exact import Exact, Given, exact, not_over, not_under


def mix_total(of: Given) -> Exact:
    rates = of["species_rates"]
    if len(rates) < 2:
        return {"outcome": "one_kind"}
    total = sum(rates)
    shares = tuple(1 - (total - each) / total for each in rates)
    return {"outcome": "worked", "bulk_rate": total, "species_shares": shares}


def live_kinds(of: Given) -> Exact:
    return {"outcome": "several" if len(of["species_live_rates"]) > 1 else "one_kind"}


def mix_live_shares(of: Given) -> Exact:
    purity, germination = of["species_purity"], of["species_germination"]
    if len(purity) != len(germination):
        return {"outcome": "not_paired"}
    live = tuple(each * germination[number] for number, each in enumerate(purity))
    return {"outcome": "worked", "species_live_shares": live}


def mix_from_live(of: Given) -> Exact:
    wanted, live = of["species_live_rates"], of["species_live_shares"]
    if len(wanted) != len(live):
        return {"outcome": "not_paired"}
    rates = tuple(wanted[number] * (1 / each) for number, each in enumerate(live))
    return {"outcome": "worked", "species_rates": rates}


def mix_from_parts(of: Given) -> Exact:
    parts = of["species_parts"]
    whole = sum(parts, Fraction(0))
    if not not_over(abs(1 - whole), of["parts_within"]):
        return {"outcome": "not_all", "parts_in_all": whole}
    rate_of_a_part = of["mix_in_all"] / whole
    return {"outcome": "worked", "species_rates": tuple(each * rate_of_a_part for each in parts)}


def mix_seeds(of: Given) -> Exact:
    columns = of["species_rates"], of["species_seed_sizes"], of["species_live_shares"]
    if len({len(each) for each in columns}) > 1:
        return {"outcome": "not_paired"}
    species = list(zip(*columns, strict=True))
    return {
        "outcome": "worked",
        "species_seeds": tuple(rate * size for rate, size, _ in species),
        "species_live_seeds": tuple(rate * live * size for rate, size, live in species),
        "mixed_seed_sizes": columns[1],
    }


def kinds_often_coated(of: Given) -> Exact:
    small = [each for each in of["species_seed_sizes"] if not_under(each, of["coated_from"])]
    return {"outcome": "small" if small else "large"}


def mix_live_uncoated(of: Given) -> Exact:
    columns = of["species_live_shares"], of["species_purity"], of["species_coating"]
    if len({len(each) for each in columns}) > 1:
        return {"outcome": "not_paired"}
    if not sum(columns[2]):
        return {"outcome": "all_bare"}
    species = [(live, purity, 1 - coating) for live, purity, coating in zip(*columns, strict=True)]
    if not all(not_over(purity, bare) for _, purity, bare in species):
        return {"outcome": "over_100"}
    return {
        "outcome": "worked",
        "species_live_uncoated": tuple(live / bare for live, _, bare in species),
    }


def mix_coated_sizes(of: Given) -> Exact:
    sizes, coating = of["bare_seed_sizes"], of["species_coating"]
    if len(sizes) != len(coating):
        return {"outcome": "not_paired"}
    in_bag = tuple(size - size * coating[number] for number, size in enumerate(sizes))
    return {"outcome": "worked", "coated_seed_sizes": in_bag}


def two_boxes(of: Given) -> Exact:
    rates, numbers = of["species_rates"], [round(each) for each in of["small_box_species"]]
    chosen = set(numbers)
    if len(chosen) < len(numbers) or not all(0 < each <= len(rates) for each in chosen):
        return {"outcome": "no_such"}
    if len(chosen) == len(rates):
        return {"outcome": "one_box"}
    small = sum(rates[number - 1] for number in chosen)
    big = sum(rates) - small
    return {
        "outcome": "worked",
        "big_box_rate": big,
        "small_box_rate": small,
        "small_box_share": small / (big + small),
    }


def mix_sorting(of: Given) -> Exact:
    first, then, sizes = of["first_sample"], of["second_sample"], of["species_seed_sizes"]
    if not len(first) == len(then) == len(sizes) or len(sizes) < 2:
        return {"outcome": "not_paired"}
    if not all(map(sum, (first, then, *zip(first, then, strict=True)))):
        return {"outcome": "too_small"}
    counts = [[float(w * s) for w, s in zip(each, sizes, strict=True)] for each in (first, then)]
    test = chi2_contingency(counts, correction=False)
    if not not_under(exact(test.expected_freq.min()), of["seeds_least"]):
        return {"outcome": "too_small"}
    shares = [[weight / sum(each) for weight in each] for each in (first, then)]
    moved = tuple(
        (after - before) / before if before else Fraction(1)
        for before, after in zip(*shares, strict=True)
    )
    most = max(range(len(moved)), key=lambda number: abs(moved[number]))
    if not 0 < of["sorting_sure"] < 1:
        raise ValueError(of["sorting_sure"])
    sure = test.pvalue < 1 - float(of["sorting_sure"])
    if not sure or not not_under(abs(moved[most]), of["sorting_least"]):
        return {"outcome": "as_mixed", "species_moved": moved}
    return {
        "outcome": "sorted",
        "species_moved": moved,
        "most_moved": most + 1,
        "share_at_first": shares[0][most],
        "share_then": shares[1][most],
    }
