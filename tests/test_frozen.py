"""A frozen record is what a frozen dataclass is, made sooner."""

from dataclasses import FrozenInstanceError, asdict, dataclass, field, fields, replace

import pytest

from trainer.frozen import frozen


@frozen
class Base:
    name: str
    tags: dict = field(default_factory=dict)


@frozen
class Sub(Base):
    size: float = 1.0


@dataclass(frozen=True, kw_only=True)
class Twin:
    name: str
    tags: dict = field(default_factory=dict)
    size: float = 1.0


def test_fields_and_copies_are_those_of_a_dataclass():
    one, twin = Sub(name="a", size=2.0), Twin(name="a", size=2.0)
    assert [(each.name, each.default) for each in fields(one)] == [(each.name, each.default) for each in fields(twin)]
    assert asdict(one) == asdict(twin) and repr(one) == repr(twin).replace("Twin", "Sub")
    assert replace(one, name="b") == Sub(name="b", size=2.0) != one
    assert one.tags is not Sub(name="a").tags


def test_a_field_is_set_once():
    one = Base(name="a")
    with pytest.raises(FrozenInstanceError):
        one.name = "b"
    with pytest.raises(FrozenInstanceError):
        del one.name
    with pytest.raises(TypeError):
        Base("a")
    assert one == Base(name="a")


def test_records_are_compared_and_hashed_by_value_and_class():
    assert Base(name="a") != Sub(name="a") and Sub(name="a", size=1) == Sub(name="a")
    assert hash(frozen(type("One", (), {"__annotations__": {"name": str}}))(name="a")) == hash(("a",))
    with pytest.raises(TypeError):
        hash(Base(name="a"))  # a dict has no hash


def test_a_field_may_be_left_out_of_the_hash():
    @frozen
    class One:
        name: str
        about: dict = field(default_factory=dict, hash=False)

    one, other = One(name="a", about={"size": 1}), One(name="a")
    assert hash(one) == hash(other) and one != other


def test_what_a_record_lacks_or_does_not_know_is_told():
    with pytest.raises(TypeError, match="Base lacks name"):
        Base()
    with pytest.raises(TypeError, match="Sub knows no colour"):
        Sub(name="a", colour="red")
    with pytest.raises(TypeError, match="Base knows no colour"):
        Base(colour="red")  # one unknown in the place of one that is missing


def test_a_record_may_check_itself_once_it_is_filled():
    @frozen
    class Positive:
        size: float = 1.0

        def __post_init__(self):
            if self.size <= 0:
                raise ValueError("too small")

    assert Positive().size == 1.0
    with pytest.raises(ValueError, match="too small"):
        Positive(size=0.0)
