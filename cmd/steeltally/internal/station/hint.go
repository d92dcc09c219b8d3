package station

import (
	"regexp"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
)

// hintOf is what to do about an error, in the screen's own terms.
func hintOf(err error) string { return OnScreen(desk.HintOf(err)) }

// OnScreen says a hint in the screen's own terms: for a command line the key that does the
// same, with what else that part of the hint says. Where no key does it, what is to be done
// stays and how is left out.
func OnScreen(hint string) string {
	var said []string
	for _, part := range strings.Split(hint, "; ") {
		if !spelledPart.MatchString(part) {
			said = append(said, part)
		} else if told := partOnScreen(part); told != "" {
			said = append(said, told)
		}
	}
	return strings.Join(said, "; ")
}

var (
	// spelledPart has a command line in it, or a flag of one.
	spelledPart = regexp.MustCompile(`\bsteeltally [a-z]|(?:^|\s)--[a-z]`)
	// spelledLine is a command line: the verb, and what stands behind it up to the prose.
	spelledLine = regexp.MustCompile(`\bsteeltally ([a-z]+(?: done| close)?(?: (?:--[a-z-]+(?: (?:[A-Z0-9]\S*|[a-z-]+))?|"[^"]*"|[A-Z0-9][^\s,]*))*)`)
	// depends begins a part that says nothing without the command line behind it.
	depends = regexp.MustCompile(`^(?:and|to|if|when|where|was|is|are|then|afterwards|or|such|for)[ :]`)
	// joint ends what stood before a command line.
	joint = regexp.MustCompile(`(?:[:,]| with| or| and| then)+$`)
)

// partOnScreen says one part of a hint.
func partOnScreen(part string) string {
	lines := spelledLine.FindAllStringSubmatchIndex(part, -1)
	if lines == nil || strings.Contains(spelledLine.ReplaceAllString(part, ""), "--") {
		return ""
	}
	said, from := "", 0
	for _, at := range lines {
		before := part[from:at[0]]
		key := keyFor(part[at[2]:at[3]])
		if key == "" {
			if depends.MatchString(part) || !strings.Contains(before, ":") {
				return ""
			}
			return joint.ReplaceAllString(strings.TrimSpace(said+before), "")
		}
		said, from = said+before+key, at[1]
	}
	return said + part[from:]
}

// keys are the command lines for which the jig has a key: it is said what to scan first.
var keys = []struct {
	typed *regexp.Regexp
	key   string
}{
	{regexp.MustCompile(`^undo(?: [0-9]{1,2})?$`), "u"},
	{regexp.MustCompile(`^emergency done$`), "ed"},
	{regexp.MustCompile(`^emergency close (\S+)$`), "scan $1, then ef"},
	{regexp.MustCompile(`^emergency$`), "el or er"},
	{regexp.MustCompile(`^emergency (\S+) --side left$`), "scan $1, then el"},
	{regexp.MustCompile(`^emergency (\S+) --side right$`), "scan $1, then er"},
	{regexp.MustCompile(`^(?:in|change)$`), "c"},
	{regexp.MustCompile(`^(?:in|change) (\S+) (LETTER|SET|[A-Z]{1,2})$`), "scan $1, then c $2"},
	{regexp.MustCompile(`^change (\S+) (LETTER|SET|[A-Z]{1,2}) --reason ([a-z]+)$`), "scan $1, then c $2 $3"},
	{regexp.MustCompile(`^grind (\S+)$`), "scan $1, then Enter"},
	{regexp.MustCompile(`^inspect (\S+)$`), "scan $1, then i"},
	{regexp.MustCompile(`^measure (\S+)(?: \S+)?$`), "scan $1, then m"},
	{regexp.MustCompile(`^history$`), "h"},
	{regexp.MustCompile(`^history (\S+)$`), "scan $1, then h"},
	{regexp.MustCompile(`^due$`), "F2"},
	{regexp.MustCompile(`^spares$`), "F3"},
	{regexp.MustCompile(`^trip list$`), "F4"},
	{regexp.MustCompile(`^tag [^-]* --out \S+$`), "F9"},
}

// keyFor is what is scanned and typed at the jig for a command line; empty where no key
// does it.
func keyFor(line string) string {
	for _, k := range keys {
		if found := k.typed.FindStringSubmatchIndex(line); found != nil {
			return string(k.typed.ExpandString(nil, k.key, line, found))
		}
	}
	return ""
}
