"""What goes into a book is found in it: the same for a file and for a book in memory."""

from dataclasses import replace

import pytest

from assistant.book.book import Book
from assistant.book.records import StoredEvent
from assistant.book.verifying import verify
from tests.book.samples import a_card, a_talk, an_event, at, fill, made_id


class TestConversations:
    def test_a_conversation_comes_back_as_it_was_told(self, book: Book) -> None:
        talk = a_talk(3, scripted=True, follows=made_id(1))
        book.start(talk)
        assert book.talk(talk.id) == talk

    def test_one_that_was_never_held_is_none(self, book: Book) -> None:
        assert book.talk(made_id(9)) is None
        assert book.events(made_id(9)) == []
        assert book.card(made_id(9)) is None

    def test_events_are_numbered_from_one_in_the_order_of_their_telling(self, book: Book) -> None:
        talk = a_talk()
        book.start(talk)
        book.append(talk.id, [("answered", {"a": 1}), ("back", {})], at(2))
        book.append(talk.id, [("answered", {"a": 2})], at(3))
        assert book.events(talk.id) == [
            StoredEvent(talk.id, 1, at(2), "answered", {"a": 1}),
            StoredEvent(talk.id, 2, at(2), "back", {}),
            StoredEvent(talk.id, 3, at(3), "answered", {"a": 2}),
        ]

    def test_a_conversation_may_start_with_the_events_of_the_one_it_corrects(
        self, book: Book
    ) -> None:
        old, new = a_talk(1), a_talk(9, follows=made_id(1))
        book.start(old)
        book.start(new, [an_event(4, {"a": 1}, old.id), an_event(7, {"a": 2}, old.id)])
        assert book.events(old.id) == []
        assert book.events(new.id) == [
            StoredEvent(new.id, 1, at(4), "answered", {"a": 1}),
            StoredEvent(new.id, 2, at(7), "answered", {"a": 2}),
        ]

    def test_nothing_to_keep_keeps_nothing(self, book: Book) -> None:
        book.start(a_talk())
        book.append(made_id(1), [], at(2))
        assert book.events(made_id(1)) == []

    def test_an_event_of_an_unknown_conversation_is_refused(self, book: Book) -> None:
        with pytest.raises(KeyError):
            book.append(made_id(5), [("answered", {})], at())
        assert book.events(made_id(5)) == []

    def test_when_one_event_cannot_be_kept_none_of_its_append_is(self, book: Book) -> None:
        book.start(a_talk())
        with pytest.raises(ValueError, match="JSON"):
            book.append(
                made_id(1), [("answered", {"a": 1}), ("answered", {"a": float("nan")})], at(2)
            )
        assert book.events(made_id(1)) == []
        book.append(made_id(1), [("answered", {"a": 3})], at(3))
        assert [event.body for event in book.events(made_id(1))] == [{"a": 3}]

    def test_bytes_that_are_no_text_come_back_in_an_answer(self, book: Book) -> None:
        book.start(a_talk())
        book.append(made_id(1), [("typed", {"text": "24\udcff"})], at(2))
        assert book.events(made_id(1))[0].body == {"text": "24\udcff"}


class TestWhatWasLeft:
    def test_the_one_last_talked_in_comes_first(self, book: Book) -> None:
        for number in (1, 2, 3):
            book.start(a_talk(number))
        book.append(made_id(1), [("answered", {})], at(30))
        assert [talk.id for talk in book.unfinished()] == [made_id(1), made_id(3), made_id(2)]

    def test_a_clock_that_was_set_back_changes_no_order(self, book: Book) -> None:
        book.start(a_talk(100))
        book.start(a_talk(50))
        book.append(made_id(100), [("answered", {})], "1970-01-01T00:00:00+00:00")
        assert [talk.id for talk in book.unfinished()] == [made_id(100), made_id(50)]
        book.append(made_id(50), [("answered", {})], "1969-07-01T00:00:00Z")
        assert [talk.id for talk in book.unfinished()] == [made_id(50), made_id(100)]

    @pytest.mark.parametrize("kind", ["finished", "left_for_good"])
    def test_an_ending_ends_it(self, book: Book, kind: str) -> None:
        book.start(a_talk())
        book.append(made_id(1), [(kind, {})], at(2))
        assert book.unfinished() == []

    def test_a_card_ends_it(self, book: Book) -> None:
        fill(book)
        assert book.unfinished() == []

    def test_runs_by_script_are_left_out_unless_asked_for(self, book: Book) -> None:
        book.start(a_talk(1, scripted=True))
        book.start(a_talk(2))
        assert [talk.id for talk in book.unfinished()] == [made_id(2)]
        assert len(book.unfinished(include_scripted=True)) == 2


class TestCards:
    def test_a_card_comes_back_as_it_was_told_by_its_id_and_by_its_conversation(
        self, book: Book
    ) -> None:
        talk = fill(book)[1]
        assert book.card(a_card(talk).id) == a_card(talk)
        assert book.card(talk.id) == a_card(talk)

    def test_its_last_answers_are_kept_with_it(self, book: Book) -> None:
        talk = fill(book, 1)[0]
        assert [event.body for event in book.events(talk.id)] == [
            {"crop": "wheat"},
            {"lot": "bin 4"},
        ]

    def test_a_card_that_cannot_be_kept_keeps_no_event_either(self, book: Book) -> None:
        book.start(a_talk())
        card = a_card(a_talk(), facts={"x": float("inf")})
        with pytest.raises(ValueError, match="JSON"):
            book.finish(card, [("answered", {})])
        assert book.events(made_id(1)) == []
        assert book.unfinished() == [a_talk()]

    def test_a_conversation_with_two_cards_gives_the_later(self, book: Book) -> None:
        talk = a_talk()
        book.start(talk)
        book.finish(a_card(talk, outcome="one_catch"))
        book.finish(replace(a_card(talk), id=made_id(99)))
        found = book.card(talk.id)
        assert found is not None
        assert found.id == made_id(99)

    def test_the_newest_come_first_and_no_more_than_asked(self, book: Book) -> None:
        talks = fill(book, 5)
        found = book.cards(limit=3)
        assert [card.talk for card in found] == [talk.id for talk in talks[:1:-1]]

    def test_a_search_holds_to_all_that_is_wanted(self, book: Book) -> None:
        for number, (drill, crop, lot) in enumerate(
            [("Red", "wheat", "1"), ("Red", "oats", "1"), ("Blue", "wheat", "2")]
        ):
            book.start(a_talk(20 * number))
            book.finish(a_card(a_talk(20 * number), drill, crop=crop, lot=lot))
        assert [card.crop for card in book.cards(drill="red")] == ["oats", "wheat"]
        assert [card.drill for card in book.cards(crop="Wheat")] == ["Blue", "Red"]
        assert [card.crop for card in book.cards(lot="1", crop="oats", drill="RED")] == ["oats"]
        assert book.cards(drill="Re") == []

    @pytest.mark.parametrize(
        ("since", "found"), [("2031-04-02", 3), (at(30), 2), ("20310402T062000.001Z", 0)]
    )
    def test_a_search_may_begin_at_a_day_or_a_moment(
        self, book: Book, since: str, found: int
    ) -> None:
        fill(book)
        assert len(book.cards(since=since)) == found

    def test_a_card_is_as_old_as_it_says_though_the_clock_had_been_ahead(self, book: Book) -> None:
        for number in (1_000_000, 20):
            book.start(a_talk(number))
            book.finish(a_card(a_talk(number)))
        assert [card.talk for card in book.cards()] == [made_id(20), made_id(1_000_000)]
        assert [card.talk for card in book.cards(since=at(100))] == [made_id(1_000_000)]

    def test_cards_made_by_script_are_left_out_unless_asked_for(self, book: Book) -> None:
        talk = a_talk(1, scripted=True)
        book.start(talk)
        book.finish(a_card(talk))
        assert book.cards() == []
        assert book.drills() == []
        assert len(book.cards(include_scripted=True)) == 1
        assert book.drills(include_scripted=True) == ["Old green"]

    def test_drills_are_named_as_last_spelled_the_last_used_first(self, book: Book) -> None:
        for number, drill in enumerate(["Red", "Blue", "", "red"]):
            book.start(a_talk(20 * number))
            book.finish(a_card(a_talk(20 * number), drill))
        assert book.drills() == ["red", "Blue"]


class TestTypedIds:
    def test_the_beginning_of_an_id_is_enough_when_no_other_begins_so(self, book: Book) -> None:
        near, far = a_talk(1), a_talk(500_000)
        for talk in (near, far):
            book.start(talk)
            book.finish(a_card(talk))
        assert book.talk(near.id[:6]) == near
        assert book.talk(far.id[:6].upper()) == far
        assert book.card(near.id[:6]) == a_card(near)

    def test_a_beginning_that_fits_two_is_none(self, book: Book) -> None:
        book.start(a_talk(1))
        book.start(a_talk(2))
        assert made_id(1)[:5] == made_id(2)[:5]
        assert book.talk(made_id(1)[:5]) is None

    def test_fewer_than_four_signs_are_too_few(self, book: Book) -> None:
        fill(book, 1)
        assert book.talk(made_id(0)[:4]) == a_talk(0)
        assert book.talk(made_id(0)[:3]) is None
        assert book.card(made_id(0)[:3]) is None

    @pytest.mark.parametrize("text", ["", "%%%%", "____", "' OR 1", "\x00abc", "ünïq", "\udcff123"])
    def test_what_is_no_id_finds_nothing(self, book: Book, text: str) -> None:
        fill(book, 1)
        assert book.talk(text) is None
        assert book.card(text) is None


class TestSoundness:
    def test_a_book_that_nobody_touched_verifies(self, book: Book) -> None:
        talk = fill(book)[0]
        book.append(talk.id, [("looked_at", {})], at(900))
        assert verify(book) == []

    def test_closing_twice_is_closing_once(self, book: Book) -> None:
        book.close()
        book.close()
        with pytest.raises(Exception, match="failed"):
            book.unfinished()
