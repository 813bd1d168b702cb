"""The shelf: every material by its name, a user's own before the package's.

A user's own lie beside the docket (else the list): folders `layouts/`, `fonts/`, `styles/`,
`devices/`, `shops/` with one file each, and `inks.toml`, `stocks.toml`, `methods.toml` with one
table each.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from importlib.resources import files
from pathlib import Path
from typing import TypeVar

from addressing.materials.calibrations import Place, read_calibrations
from addressing.materials.devices import read_device, read_devices
from addressing.materials.faces import face_sources, read_face
from addressing.materials.inks import read_inks, read_stocks
from addressing.materials.layouts import read_layout
from addressing.materials.methods import read_methods
from addressing.materials.nearest import unknown
from addressing.materials.postage import read_postage
from addressing.materials.rates import read_rates
from addressing.materials.shops import read_shop, read_shops
from addressing.materials.styles import read_style
from addressing.records.lays import Calibration
from addressing.records.methods import Method
from addressing.records.postage import PostRates
from addressing.records.rates import Rates
from addressing.records.shelf import Device, Face, Ink, Layout, Press, Shop, Stock
from addressing.records.styles import Style
from addressing.where import Where

Thing = TypeVar("Thing", Ink, Stock, Device, Shop, Method)


@dataclass(frozen=True, slots=True)
class Shelf:
    """What a job may use. Each listing gives keys in order; names are found whatever their case.

    A key that is unknown is a Fault with exit 3 and the code `layout-unknown`, `face-unknown` and
    so on, at `where` (such as "docket:piece[1].layout"); a file that is wrong is a Fault of its
    reader.
    """

    beside: Path | None
    _faces: dict[str, Face] = field(default_factory=dict, repr=False, compare=False)

    def layouts(self) -> tuple[str, ...]:
        """The keys of all layouts."""
        return tuple(sorted(self._layout_paths()))

    def layout(self, key: str, where: Where | None = None) -> Layout:
        """The layout of that name."""
        paths = self._layout_paths()
        return read_layout(paths[_found("layout", key, paths, where)])

    def faces(self) -> tuple[str, ...]:
        """The keys of all faces; no font is opened."""
        return tuple(sorted(self._face_paths()))

    def face(self, key: str, where: Where | None = None) -> Face:
        """The face of that name, its file looked over once."""
        paths = self._face_paths()
        name = _found("face", key, paths, where)
        if name not in self._faces:
            self._faces[name] = read_face(name, paths[name], own=name in self.own_faces())
        return self._faces[name]

    def own_faces(self) -> frozenset[str]:
        """The keys of the faces that lie beside the docket: nobody has looked at them before."""
        if self.beside is None:
            return frozenset()
        return frozenset(face_sources(self.beside / "fonts"))

    def inks(self) -> tuple[str, ...]:
        """The keys of all inks."""
        return tuple(self._inks())

    def ink(self, key: str, where: Where | None = None) -> Ink:
        """The ink of that name, before a device or shop has its say (presses.ink_for)."""
        inks = self._inks()
        return inks[_found("ink", key, inks, where)]

    def stocks(self) -> tuple[str, ...]:
        """The keys of all papers."""
        return tuple(self._stocks())

    def stock(self, key: str, where: Where | None = None) -> Stock:
        """The paper of that name."""
        stocks = self._stocks()
        return stocks[_found("stock", key, stocks, where)]

    def devices(self) -> tuple[str, ...]:
        """The keys of all devices."""
        return (*dict.fromkeys((*_own_files(self.beside, "devices"), *_packaged_devices())),)

    def device(self, key: str, where: Where | None = None) -> Device:
        """The device of that name."""
        own = _own_files(self.beside, "devices")
        name = _found("device", key, self.devices(), where)
        return read_device(own[name]) if name in own else _packaged_devices()[name]

    def shops(self) -> tuple[str, ...]:
        """The keys of all shops."""
        return (*dict.fromkeys((*_own_files(self.beside, "shops"), *_packaged_shops())),)

    def shop(self, key: str, where: Where | None = None) -> Shop:
        """The shop of that name."""
        own = _own_files(self.beside, "shops")
        name = _found("shop", key, self.shops(), where)
        shop = read_shop(own[name]) if name in own else _packaged_shops()[name]
        stocks = self.stocks() if shop.prints else ()
        for stock in (each for rule in shop.prints for each in rule.stocks):
            _found("stock", stock, stocks, Where(f"{name}.toml", None, "prints"))
        return shop

    def styles(self) -> tuple[str, ...]:
        """The keys of all styles of wording."""
        packaged = _toml_files(package_folder("styles"))
        return tuple(sorted(packaged | _own_files(self.beside, "styles")))

    def style(self, key: str, where: Where | None = None) -> Style:
        """The style of that name."""
        name = _found("style", key, self.styles(), where)
        own = _own_files(self.beside, "styles")
        return read_style(name, own, _toml_files(package_folder("styles")))

    def rates(self) -> Rates:
        """The user's prices beside the docket, else the packaged, invented ones."""
        own = self.beside / "rates.toml" if self.beside is not None else None
        invented = own is None or not own.is_file()
        path = _data("rates.toml") if invented or own is None else own
        return read_rates(path, self.devices(), self.shops(), self.inks(), invented=invented)

    def postage(self) -> PostRates:
        """The user's postage beside the docket, else the packaged, invented one."""
        own = self.beside / "postage.toml" if self.beside is not None else None
        if own is not None and own.is_file():
            return read_postage(own)
        return read_postage(_data("postage.toml"), invented=True)

    def press(self, device: str | None, shop: str | None) -> Press | None:
        """The device or the shop that a docket names, or None when it names neither."""
        if device is not None:
            return self.device(device)
        return self.shop(shop) if shop is not None else None

    def calibration(self, place: Place) -> Calibration | None:
        """Where a device truly prints, as it was measured; None when it wasn't."""
        return read_calibrations(self.beside).get(place) if self.beside is not None else None

    def methods(self) -> tuple[Method, ...]:
        """The ways of printing; those of a `methods.toml` beside the docket replace ours."""
        return tuple(_tables(self.beside, "methods.toml", read_methods).values())

    def _layout_paths(self) -> dict[str, Path]:
        packaged = package_folder("layouts")
        return _toml_files(packaged) | _own_files(self.beside, "layouts")

    def _face_paths(self) -> dict[str, Path]:
        packaged = face_sources(package_folder("fonts"))
        return packaged | (face_sources(self.beside / "fonts") if self.beside is not None else {})

    def _inks(self) -> dict[str, Ink]:
        return _tables(self.beside, "inks.toml", read_inks)

    def _stocks(self) -> dict[str, Stock]:
        return _tables(self.beside, "stocks.toml", read_stocks)


def open_shelf(beside: Path | None) -> Shelf:
    """The shelf for a job whose docket (else list) lies in the folder `beside`.

    Nothing is read before it is asked for.
    """
    return Shelf(beside)


def package_folder(name: str) -> Path:
    """The package's folder of that name: inside the package, else beside it in a checkout."""
    package = Path(str(files("addressing")))
    inside = package / name
    return inside if inside.is_dir() else package.parent / name


def _packaged_devices() -> dict[str, Device]:
    return {each.key: each for each in read_devices(_data("devices.toml"))}


def _packaged_shops() -> dict[str, Shop]:
    return {each.key: each for each in read_shops(_data("shops.toml"))}


def _data(name: str) -> Path:
    return Path(str(files("addressing"))) / "data" / name


def _tables(
    beside: Path | None, name: str, read: Callable[[Path], tuple[Thing, ...]]
) -> dict[str, Thing]:
    """The package's tables, each replaced by the user's own of the same key."""
    things = {each.key: each for each in read(_data(name))}
    if beside is not None and (beside / name).is_file():
        things |= {each.key: each for each in read(beside / name)}
    return things


def _toml_files(folder: Path) -> dict[str, Path]:
    if not folder.is_dir():
        return {}
    return {path.stem: path for path in sorted(folder.glob("*.toml")) if path.is_file()}


def _own_files(beside: Path | None, name: str) -> dict[str, Path]:
    return _toml_files(beside / name) if beside is not None else {}


def _found(kind: str, key: str, known: Iterable[str], where: Where | None) -> str:
    """The known key that `key` means; an exact one before one in other capitals."""
    names = tuple(known)
    if key in names:
        return key
    folded = [name for name in names if name.casefold() == key.strip().casefold()]
    if not folded:
        raise unknown(kind, key, names, where)
    return folded[0]
