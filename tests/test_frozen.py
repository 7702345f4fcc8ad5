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
