"""Shell completion: prints the lines that your shell needs, for bash, zsh, fish or PowerShell.

bash: add `eval "$(trainer completion bash)"` to ~/.bashrc; zsh likewise in ~/.zshrc (after compinit).
fish: trainer completion fish > ~/.config/fish/completions/trainer.fish
PowerShell: add `trainer completion powershell | Out-String | Invoke-Expression` to $PROFILE.
"""

from trainer.commands import COMMANDS
from trainer.commands import arguments as parsers
from trainer.errors import TrainerError, UsageError

EXAMPLE = "trainer completion bash"
TAKES_WORDS = True

# Each hands the words typed so far to `trainer completion words` and offers what that prints.
SCRIPTS = {
    "bash": """_trainer() {
    local IFS=$'\\n'
    COMPREPLY=($(trainer completion words -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null))
}
complete -o default -F _trainer trainer""",
    "zsh": """_trainer() {
    local -a found
    found=("${(@f)$(trainer completion words -- "${(@)words[2,CURRENT]}" 2>/dev/null)}")
    compadd -a found
}
compdef _trainer trainer""",
    "fish": """complete -c trainer -a \
'(trainer completion words -- (commandline -opc)[2..-1] (commandline -ct) 2>/dev/null)'""",
    # Windows PowerShell drops empty arguments, so a new word is told by a word of its own.
    "powershell": """Register-ArgumentCompleter -Native -CommandName trainer -ScriptBlock {
    param($word, $ast, $position)
    $typed = @($ast.CommandElements | Select-Object -Skip 1 | ForEach-Object { $_.ToString() })
    if (-not $word) { $typed = @('new') + $typed } else { $typed = @('words') + $typed }
    trainer completion @typed 2>$null | ForEach-Object {
        [System.Management.Automation.CompletionResult]::new($_)
    }
}""",
}


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("shell", choices=(*SCRIPTS, "words", "new"), help="your shell")
    parser.usage = "%(prog)s {bash,zsh,fish,powershell}"


def run(options, words, world):
    """Print the script of a shell, or (called by it) what may come next."""
    if options.shell in SCRIPTS:
        if words:
            raise UsageError(f"{words[0]!r} is not understood here", hint="name one shell")
        print(SCRIPTS[options.shell])
        return
    typed = words[1:] if words[:1] == ["--"] else words
    typed = typed or [""] if options.shell == "words" else [*typed, ""]
    for word in offered(typed, world):
        print(word)


def offered(typed, world):
    """Return what may stand in place of the last of the words ``typed``."""
    try:
        found = _candidates(typed[:-1], world)
    except TrainerError:
        found = []  # a half-typed line is no fault
    return sorted({word for word in found if word.startswith(typed[-1])}, key=lambda word: (word[:1] == "-", word))


def _candidates(before, world):
    if not before:
        return [*COMMANDS, *_options(parsers.everywhere())]
    name = before[0]
    module = parsers.command(name, COMMANDS)
    parser = parsers.parser_of(name, module)
    for action in parser._actions:
        if before[-1] in action.option_strings and action.nargs != 0 and len(before) > 1:
            return _values(action)
    extra = getattr(module, "candidates", lambda before, world: [])(before[1:], world)
    positional = [word for action in parser._actions if not action.option_strings for word in action.choices or ()]
    return [*extra, *(positional if len(before) == 1 else []), *_options(parser)]


def _values(action):
    from trainer.model import AREAS

    return action.choices or (AREAS if "--area" in action.option_strings else ())


def _options(parser):
    return [option for action in parser._actions for option in action.option_strings if option.startswith("--")]
