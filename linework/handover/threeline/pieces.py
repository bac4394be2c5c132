"""Parts blocks that are higher than the paper: their bars go on in the next piece."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import networkx as nx

from linework.handover.threeline.model import (
    Block,
    Conductors,
    Contact,
    Device,
    Net,
    Port,
    ends_of,
)
from linework.handover.threeline.shape import HALF, ROW

_BESIDES = 290
"""What name and jumpers of a piece may take besides its terminals."""


def divided(found: Conductors, height: int) -> Conductors:
    """The same with every block in pieces that a page of ``height`` holds."""
    blocks: dict[str, Block] = {}
    port_now: dict[Port, Port] = {}
    for key, block in found.blocks.items():
        groups = _groups(block, max(height - _BESIDES, _BESIDES))
        if len(groups) == 1:
            blocks[key] = block
            continue
        for piece in _pieces(block, groups, port_now):
            blocks[piece.key] = piece
    ribbons = [
        replace(r, a=port_now.get(r.a, r.a), b=port_now.get(r.b, r.b)) for r in found.ribbons
    ]
    return replace(found, blocks=blocks, ribbons=ribbons, plans={})


def before_of(block: Block) -> str:
    """The key of the piece before this one."""
    return _key(block.part, block.piece - 1)


def _key(part: str, piece: int) -> str:
    return f"{part} {piece}"


def _groups(block: Block, most: int) -> list[list[Port]]:
    """Its terminals in their order, so many together as a piece holds."""
    groups: list[list[Port]] = [[]]
    used = {True: 0, False: 0}
    for port in block.ports:
        high = HALF + ROW * len(port.pins)
        # what feeds a board lies at its other side
        seated = port.part != port.root
        if groups[-1] and used[seated] + high > most:
            groups.append([])
            used = {True: 0, False: 0}
        groups[-1].append(port)
        used[seated] += high
    return groups


def _pieces(block: Block, groups: list[list[Port]], port_now: dict[Port, Port]) -> Iterable[Block]:
    """Contacts go with the terminal to which they lead, what joins bars into the first piece,
    what leaves below into the last."""
    nearby = _nearby(block)
    piece_of = {net: n for n, ports in enumerate(groups) for p in ports for net in nearby[p]}
    held: list[list[Contact]] = [[] for _ in groups]
    for contact in block.contacts:
        held[piece_of.get(contact.a, piece_of.get(contact.b, 0))].append(contact)
    last = len(groups) - 1
    pieces: list[Block] = []
    for n, ports in enumerate(groups):
        key = _key(block.part, n + 1)
        now = [replace(port, block=key) for port in ports]
        port_now.update(zip(ports, now, strict=True))
        soil = [i for i in block.inners if i.device is Device.SOIL]
        others = [i for i in block.inners if i.device is not Device.SOIL]
        piece = replace(
            block,
            key=key,
            ports=now,
            contacts=held[n],
            inners=(others if n == 0 else []) + (soil if n == last else []),
            stubs=block.stubs if n == last else [],
            piece=n + 1,
            pieces=len(groups),
        )
        pieces.append(piece)
    seen = [set(ends_of(piece)) for piece in pieces]
    for n, piece in enumerate(pieces):
        before, after = (set().union(*part) for part in (seen[:n], seen[n + 1 :]))
        piece.from_above = frozenset(before & (seen[n] | after))
        piece.goes_on = frozenset(after & (seen[n] | before))
    return pieces


def _nearby(block: Block) -> dict[Port, set[Net]]:
    """The nets of each terminal and those to which only contacts in line lead from there."""
    counted: dict[Net, int] = {}
    for net in ends_of(block):
        counted[net] = counted.get(net, 0) + 1
    graph = nx.Graph()
    graph.add_nodes_from(net for net, count in counted.items() if count < 3)
    for c in block.contacts:
        if c.a in graph and c.b in graph:
            graph.add_edge(c.a, c.b)
    near = nx.node_connected_component
    found: dict[Port, set[Net]] = {}
    for port in block.ports:
        found[port] = set()
        for pin in port.pins:
            if pin.net in graph:
                found[port] |= near(graph, pin.net)  # type: ignore[no-untyped-call]
    return found
