package cli

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"steeltally/inventory"
)

// Every command line that a hint, a help text, a page of the screen or the README spells can
// be typed: its verb and its flags are there, its words are as many as the verb takes, and
// a value that is one of a few is one of them.
func TestEveryCommandLineThatIsSpelledCanBeTyped(t *testing.T) {
	whole, named, flags := 0, 0, 0
	known := allFlags((&app{}).root())
	for _, s := range spelledTexts(t) {
		for _, typed := range commandLines(s) {
			words, err := typed.try()
			if err != nil {
				t.Errorf("%s: %s: %v", s.where, strings.TrimSpace(s.line), err)
			}
			if words > 0 {
				whole++
			} else {
				named++
			}
		}
		if !strings.Contains(s.where, ".go:") {
			continue
		}
		for _, flag := range flagInText.FindAllStringSubmatch(s.line, -1) {
			flags++
			if !known[flag[1]] {
				t.Errorf("%s: %s: no verb has a flag --%s", s.where, strings.TrimSpace(s.line), flag[1])
			}
		}
	}
	t.Logf("%d command lines, %d verbs that are named alone, %d flags", whole, named, flags)
	if whole < 320 || named < 150 || flags < 450 {
		t.Errorf("only %d command lines, %d verbs and %d flags were found", whole, named, flags)
	}
}

// The test above finds each sort of fault.
func TestFaultsOfCommandLinesAreFound(t *testing.T) {
	for line, fault := range map[string]string{
		"if it is new: steeltally trip trunk \"Trunk 9\" enters it": `"trunk"`,
		"steeltally trunks shows them":                              `"trunks"`,
		"steeltally measure 17 --refernce loose":                    "refernce",
		"steeltally in 17":                                          "arg",
		"steeltally rivet off H1-1-43 twice":                        `"twice"`,
		"  steeltally scrap R1-1-77 because":                        "",
		"steeltally history R1-1-77 R1-2-74":                        "arg",
		"say it: steeltally damage ‹n› --mode smashed":              "smashed",
		"steeltally rivet on ‹n›":                                   "pair",
		"steeltally specs 17 --hollow wide":                         "wide",
	} {
		found := commandLines(spelled{line: line})
		if len(found) != 1 {
			t.Fatalf("%q spells %d command lines", line, len(found))
		}
		if _, err := found[0].try(); fault != "" && (err == nil || !strings.Contains(err.Error(), fault)) {
			t.Errorf("%q: %v, want a fault about %s", line, err, fault)
		}
	}
}

// flagInText is a flag wherever it stands.
var flagInText = regexp.MustCompile(`(?:^|[\s("])--([a-z][a-z-]+)`)

func allFlags(cmd *cobra.Command) map[string]bool {
	known := map[string]bool{}
	note := func(f *pflag.Flag) { known[f.Name] = true }
	cmd.Flags().VisitAll(note)
	cmd.PersistentFlags().VisitAll(note)
	for _, sub := range cmd.Commands() {
		for name := range allFlags(sub) {
			known[name] = true
		}
	}
	return known
}

// word is a word of a command line as it is spelled.
type word struct {
	text string
	last bool // a comma, a semicolon or the like ends the command line behind it
}

// typed is a command line that a text spells, and what stands behind it.
type typed struct {
	words []word
	exact bool
}

// commandLines are those that a line spells.
func commandLines(s spelled) (all []typed) {
	parts := regexp.MustCompile(`\bsteeltally `).Split(s.line, -1)
	for i, part := range parts[1:] {
		if before := parts[i]; strings.HasSuffix(before, "/") || strings.HasSuffix(before, "-") {
			continue // a folder's or a file's name
		}
		one := typed{exact: s.exact}
		for _, text := range regexp.MustCompile(`(?:"[^"]*"|‹[^›]*›|[^\s"‹])+`).FindAllString(part, -1) {
			trimmed := strings.TrimRight(text, ".,;:?!)")
			one.words = append(one.words, word{trimmed, trimmed != text})
		}
		if len(one.words) > 0 && regexp.MustCompile(`^[a-z‹]`).MatchString(one.words[0].text) {
			all = append(all, one)
		}
	}
	return all
}

// try holds a command line to the program's verbs; words are those behind the verb.
func (l typed) try() (words int, err error) {
	root := (&app{}).root()
	root.InitDefaultHelpCmd()
	return l.under(root, 0)
}

// under goes on with a verb's verbs. Where the source says only which, one has to do.
func (l typed) under(cmd *cobra.Command, at int) (int, error) {
	if at == len(l.words) || at > 0 && l.words[at-1].last {
		return 0, nil
	}
	name := l.words[at].text
	if strings.HasPrefix(name, "‹") && strings.HasSuffix(name, "›") && cmd.HasSubCommands() {
		words, err := l.behind(cmd, at)
		for _, sub := range cmd.Commands() {
			if err != nil {
				words, err = l.under(sub, at+1)
			}
		}
		return words, err
	}
	name, _, _ = strings.Cut(name, "‹")
	for _, sub := range cmd.Commands() {
		if sub.Name() == name || sub.HasAlias(name) {
			return l.under(sub, at+1)
		}
	}
	if cmd.Parent() == nil {
		return 0, fmt.Errorf("there is no verb %q", name)
	}
	return l.behind(cmd, at)
}

// behind reads a verb's words and flags, up to the prose behind them, and lets the verb check
// them. A flag that is only named, as in --with WHOM or in "--with says whom", is looked for.
func (l typed) behind(cmd *cobra.Command, at int) (words int, err error) {
	var args []string
	only := false
	cmd.ParseFlags(nil)
	for ; at < len(l.words); at++ {
		w := l.words[at]
		if !l.exact && prose[w.text] {
			break
		}
		name, isFlag := strings.CutPrefix(w.text, "--")
		switch {
		case !isFlag && !l.exact && plainWord.MatchString(w.text) && !verbWords[w.text]:
			return 0, fmt.Errorf("%q is no verb and no word of %s", w.text, cmd.CommandPath())
		case !isFlag:
			args = append(args, sampled(w.text, "17"))
		default:
			f := cmd.Flags().Lookup(name)
			if f == nil {
				return 0, fmt.Errorf("%s has no flag --%s", cmd.CommandPath(), name)
			}
			if f.NoOptDefVal != "" {
				args = append(args, w.text)
				break
			}
			if only = w.last || at+1 == len(l.words) || prose[l.words[at+1].text]; only {
				break
			}
			at++
			w = l.words[at]
			args = append(args, "--"+name+"="+valueOf(cmd, f, w.text))
		}
		if w.last || only {
			break
		}
	}
	if only || len(args) == 0 {
		return len(args), nil
	}
	return len(args), check(cmd, args)
}

// check parses a command line as the program would.
func check(cmd *cobra.Command, args []string) (err error) {
	if err = cmd.ParseFlags(args); err != nil {
		return err
	}
	if err = cmd.ValidateArgs(cmd.Flags().Args()); err != nil {
		return err
	}
	if err = cmd.ValidateRequiredFlags(); err != nil {
		return err
	}
	if err = cmd.ValidateFlagGroups(); err != nil {
		return err
	}
	cmd.Flags().Visit(func(f *pflag.Flag) {
		values := []string{f.Value.String()}
		if list, ok := f.Value.(pflag.SliceValue); ok {
			values = list.GetSlice()
		}
		for _, value := range values {
			if words := f.Annotations[wordsOf]; words != nil && !slices.Contains(words, value) {
				err = fmt.Errorf("--%s %s is none of %v", f.Name, value, words)
			}
		}
	})
	return err
}

// unknown is what stands for a value: ‹n.Short()›, NAME, or an ellipsis.
var unknown = regexp.MustCompile(`‹[^›]*›|^[A-Z][A-Z-]+$|…`)

// sampled puts a sample where a text has what is only known later.
func sampled(text, sample string) string {
	return unknown.ReplaceAllLiteralString(strings.Trim(text, `"`), sample)
}

// valueOf is a flag's value, with a sample that the flag takes where the text has none.
func valueOf(cmd *cobra.Command, f *pflag.Flag, text string) string {
	samples := append(f.Annotations[wordsOf], "17", "left", "15.5mm", "1/2in", "-1h", "field=column")
	for _, sample := range samples {
		if value := sampled(text, sample); f.Value.Set(value) == nil {
			if list, ok := f.Value.(pflag.SliceValue); ok {
				list.Replace(nil)
			}
			return value
		}
	}
	return text
}

// plainWord may be a word of a verb, or of what is said behind it.
var plainWord = regexp.MustCompile(`^[a-z]+$`)

// verbWords are plain words that verbs take.
var verbWords = wordSet(strings.Split(inventory.List(inventory.Roles()), ", "), inventory.Texts(inventory.Custodies()), inventory.Texts(inventory.Decisions()), []string{"all", "runner", "holder", "bench"})

// prose are the words with which hints go on behind a command line.
var prose = wordSet(strings.Fields(`and or when if where for with once again until shows lists says tells enters puts takes gets gives adds makes
begins ends settles declares names notes prints writes looks runs`))

func wordSet(lists ...[]string) map[string]bool {
	set := map[string]bool{}
	for _, word := range slices.Concat(lists...) {
		set[word] = true
	}
	return set
}
