"""``trainer deck check``: every fault of decks and data files, each with file and line.

Every sound drill with drawn numbers is also tried on many draws; see ``try_drill``.
"""

from pathlib import Path

from trainer import paths as folders
from trainer.decks import belonging, said, stages, standards
from trainer.decks.crossing import WHAT, crossing_faults, entries
from trainer.decks.datafile import kind_of, read_data
from trainer.decks.deckfile import read_file
from trainer.decks.fault import Fault
from trainer.decks.files import FOLDERS, listing, toml_files
from trainer.decks.library import Data, library_of
from trainer.decks.tables import parse
from trainer.decks.textfile import read_text
from trainer.decks.words import nearest
from trainer.drills.try_drill import try_drill
from trainer.model import FlowDrill


def check(paths, draws=10_000, *, tell=None, home=None, airframe="", ship="", seed=1):
    """Return every ``Fault`` in the files and folders ``paths``, sorted by file and line.

    The files are seen together with the shipped decks and those of ``home``, as they would be loaded;
    faults of those others are not reported.  Each sound drill with drawn numbers is tried on ``draws`` draws (none
    for 0), and ``tell()`` is called after each.
    """
    files, faults = expand(paths)
    lists = [path for path in files if list_kind(path, home)]
    files = [path for path in files if path not in lists]
    # Whatever lies beside the decks is loaded as one.
    data_files = [path for path in files if is_data(path) and (kind_of(path) or path.parent not in _loaded(home))]
    decks = [read_file(path) for path in files if path not in data_files]
    data_files = [read_data(path) for path in data_files]
    faults += [fault for file in (*data_files, *decks) for fault in file.faults]
    found = listing(home)
    data = surroundings(found, data_files, airframe, ship)
    names = {file.path.stem for file in decks}
    context = [read_file(path) for name, path in found.decks.items() if name not in names]
    faults += crossing_faults(decks, data, context=context)
    for file in data_files:
        if file.kind and file is not data.get(file.kind) and not file.faults:
            faults += lacking(file, [*context, *decks])
    faults += list_faults(lists, [*context, *decks], home)
    if draws:
        faults += tried(decks, data, faults, draws=draws, tell=tell, seed=seed)
    return sorted(set(faults), key=lambda fault: (fault.file, fault.line, fault.message))


def everything(home=None):
    """Return every file that would be loaded: decks, numbers, stages, standards, and how people say steps."""
    found = listing(home)
    files = [*found.all(), *stages.listing(home).values(), *standards.listing(home).values()]
    return [*files, *(path for folder in _loaded(home) for path in toml_files(folder / said.FOLDER).values())]


def _loaded(home):
    """Return the folders that decks are loaded from."""
    return [folders.shipped_decks(), *([folders.own_decks(home)] if home else [])]


def expand(paths):
    """Return (files in folders and files named, faults for what is not there); each file once."""
    files, faults = [], []
    for path in map(Path, paths):
        if path.is_dir():
            inside = [
                path,
                *(path / folder for folder in (*FOLDERS.values(), said.FOLDER, stages.FOLDER, standards.FOLDER)),
            ]
            files += [file for folder in inside for file in toml_files(folder).values()]
        elif path.is_file():
            files.append(path)
        else:
            faults.append(Fault(file=str(path), line=0, drill="", message="there is no such file or folder"))
    return list(dict.fromkeys(files)), faults


def list_kind(path, home=None):
    """Return which kind of list of drills ``path`` is: "said", "stages", "standards", "" for none.

    The folder it lies in tells, else what stands in it; whatever lies beside the decks is loaded as one.
    """
    folder = path.absolute().parent.name
    if folder in (said.FOLDER, stages.FOLDER, standards.FOLDER):
        return folder
    if path.parent in _loaded(home) or kind_of(path):
        return ""
    source, _, _ = read_text(path)
    kind = belonging.kind_of(parse(source.text).data) if source else ""
    return {"stage": stages.FOLDER, "standard": standards.FOLDER, "said": said.FOLDER}.get(kind, "")


def list_faults(paths, decks, home):
    """Return the faults of the files ``paths`` that speak of drills: how steps are said, stages, standards."""
    drills = {drill.id: drill for file in decks for drill in file.drills}
    names = {file.deck.name for file in decks if file.deck}
    found = said_faults([path for path in paths if list_kind(path, home) == said.FOLDER], decks)
    for path in paths:
        if list_kind(path, home) == standards.FOLDER:
            found += standards.read(path, drills=drills)[1]
        elif list_kind(path, home) == stages.FOLDER:
            found += stages.read(path, drills=drills, decks=names, others=names_elsewhere(path, home))[1]
    return found


def names_elsewhere(path, home):
    """Return {"standard": names, "next": names} that a stage at ``path`` may name: those beside it, and all known."""
    folder = path.absolute().parent
    return {
        "standard": {*standards.listing(home), *toml_files(folder.parent / standards.FOLDER)},
        "next": {*stages.listing(home), *toml_files(folder)},
    }


def said_faults(paths, decks):
    """Return the faults of the files ``paths`` that tell how people say the steps of the flows of ``decks``."""
    flows = {drill.id: drill for file in decks for drill in file.drills if isinstance(drill, FlowDrill)}
    faults = []
    for path in paths:
        if path.stem in flows:
            steps = tuple(step.id for step in flows[path.stem].steps)
            found = said.read_said(path, steps)
            faults += found.faults or said.too_few(path, found, steps)
        else:
            message = f"its name is that of no flow{nearest(path.stem, flows)}"
            faults.append(Fault(file=str(path), line=0, drill="", message=message))
    return faults


def is_data(path):
    """Return whether ``path`` is a data file: by its folder, else because it has values and no drills."""
    if kind_of(path):
        return True
    source, _, _ = read_text(path)
    lines = [line.strip() for line in source.text.split("\n")] if source else []
    has_data = any(line == "[values]" or line.startswith("[table.") for line in lines)
    return has_data and "[deck]" not in lines


def surroundings(found, data_files, airframe, ship):
    """Return {"ship": ``DataFile``, …} that the decks are checked with; files being checked come first."""
    checked = {file.kind: file for file in reversed(data_files) if file.kind}
    chosen = {kind: read_data(path) for kind, path in found.data(airframe, ship).items()}
    for kind, file in chosen.items():
        # The chosen one may itself be among the files being checked.
        same = [other for other in data_files if other.kind == kind and other.path.stem == file.path.stem]
        chosen[kind] = same[0] if same else file
    return checked | chosen


def lacking(file, decks):
    """Return faults for what drills take from ``file``'s kind and this one has not."""
    needed = {}
    for deck in decks:
        for reference in deck.references:
            kind, _, name = reference.name.partition(".")
            if kind == file.kind:
                needed.setdefault((name, reference.is_table), reference.drill)
    faults = []
    for (name, is_table), drill in needed.items():
        what = WHAT[is_table]
        if name not in entries(is_table, file):
            faults.append(file.fault((), f'the {what} "{name}" is missing; drill "{drill}" takes it'))
    return faults


def tried(decks, data, faults, *, draws, tell, seed):
    """Return what trying the sound drills of ``decks`` brings to light."""
    bad = {(fault.file, fault.drill) for fault in faults}
    library = library_of(decks, Data({}, {kind: file for kind, file in data.items() if not file.faults}))
    found = []
    for file in decks:
        for drill in file.drills:
            if getattr(drill, "draws", ()) and (str(file.path), drill.id) not in bad:
                trial = try_drill(drill, library, draws=draws, seed=seed)
                place = file.places[drill.id]
                found += [file.fault((*place, *inner), drill.id, message) for inner, message in trial.faults]
                if tell:
                    tell()
    return found
