"""The table of everything a project file can say, its schema and the questions of a new one. Uses calc."""

from __future__ import annotations

from packet.fields.airway import BLOWER, DUCTS, GATE_SET, MACHINE, PIECES, SEPARATOR
from packet.fields.box import BOX, CLOSURE, FILTERS, LINING, PANEL, PORTS
from packet.fields.making import BUY_AT, GAUGE, METHODS, MONEY, ON_HAND, PRICES
from packet.fields.model import Group, Key, ListOf, Number
from packet.fields.shop import DISPLAY, DUST, NOISE, SHOP, TITLE

PROJECT = Group(
    (
        Key("packet", Number(1, 1, whole=True), "Version of this kind of file: always 1.", "1", required=True, into=()),
        Key(
            "project",
            TITLE,
            "Title block.",
            "{title: Garage shop collector, date: 2026-03-14}",
            required=True,
            into=("title",),
        ),
        Key("display", DISPLAY, "Units and paper of the packet.", "{system: inch, paper: letter}"),
        Key("shop", SHOP, "The room.", "{ceiling: 8 ft 4 in}"),
        Key("dust", DUST, "What is made, and the air speed that carries it.", "{made: 6 lb/h}"),
        Key("noise", NOISE, "Noise at the operator's ear.", "{ear: 6 ft}"),
        Key(
            "blower",
            BLOWER,
            "The blower and its curve.",
            "{outlet: 8 in, power: 3 hp, curve: [[0 cfm, 11 inH2O], [1500 cfm, 2 inH2O]]}",
        ),
        Key(
            "separator",
            SEPARATOR,
            "What takes the chips out before the filter. Not given: none.",
            "{kind: cyclone, loss: 2.0 inH2O at 800 cfm, captures: 98.5 %}",
        ),
        Key(
            "ducts",
            DUCTS,
            "Runs of duct by name; each runs into another or into the separator.",
            "{main: {into: separator, pieces: [{pipe: 6 in, length: 18 ft}]}}",
            into=("runs",),
        ),
        Key("link", PIECES, "Ducts between separator and blower.", "[{pipe: 8 in, length: 2 ft}]"),
        Key("delivery", PIECES, "Ducts from blower to filter box.", "[{pipe: 8 in, length: 6 ft}, {elbow: 8 in}]"),
        Key(
            "machines",
            ListOf(MACHINE, 1, 300),
            "The machines.",
            "[{name: planer, on: main, needs: 600 cfm, hood: plain, pieces: [{hose: 5 in, length: 5 ft}]}]",
        ),
        Key(
            "gate_sets",
            ListOf(GATE_SET, most=60),
            "Machines that run together.",
            "[{name: two, open: [planer, jointer]}]",
        ),
        Key(
            "filters",
            FILTERS,
            "The filters: one kind, or a list of kinds.",
            "{count: 2, media_area: 210 ft2, outside: 12.7 in, bore: 9.4 in, height: 36 in, weight: 16 lb}",
        ),
        Key(
            "filter_box",
            BOX,
            "The box the filters hang under.",
            "{panel: {stock: birch plywood, thickness: 18 mm}, inlet: {face: left, diameter: 8 in}}",
            into=("box",),
        ),
        Key(
            "panel",
            PANEL,
            "What the holes are cut into, where the file has no filter_box: stock and thickness.",
            "{stock: birch plywood, thickness: 18 mm}",
        ),
        Key(
            "lining", LINING, "What lines the box, or: none.", "{stock: carpet, thickness: 1/2 in, faces: [top, back]}"
        ),
        Key("closure", CLOSURE, "The screw-on ring and lid all ports share.", "{lid: 12-1/4 in}", into=("ports",)),
        Key(
            "ports",
            PORTS,
            "The screw-on openings. Not given: one for each filter, one to reach in, one for the gauge.",
            "[{name: filter A, kind: filter, face: bottom, pail: {around: 37-5/16 in}}]",
        ),
        Key("gauge", GAUGE, "The water gauge.", "{kind: u-tube, clean_when: {flow_drops: 12 %}}"),
        Key(
            "shop_methods",
            METHODS,
            "How this shop works.",
            "{holes: jigsaw, panels: track saw, helper: yes}",
            into=("methods",),
        ),
        Key("prices", PRICES, "Price of a thing, by its name in the bill.", "{birch plywood: 78.00}"),
        Key("on_hand", ON_HAND, "What is there already, by its name in the bill.", "{silicone cartridge: 1}"),
        Key(
            "buy_at",
            BUY_AT,
            "Where you buy a thing, by its name in the bill.",
            "{screw lid: pail shelf of the farm store}",
        ),
        Key("money", MONEY, "Money of the prices.", "USD", default="USD"),
    )
)
