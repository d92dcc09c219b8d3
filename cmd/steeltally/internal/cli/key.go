package cli

import (
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
)

// notAsked are the flags that say where and by whom, not what: with others the same is
// asked. Those that are true take a value.
var notAsked = map[string]bool{"--key": true, "--book": true, "--by": true, "--json": false}

// asked is a fingerprint of what a command line asks for, so that its key is not taken for
// another action: the same words again, and the same lines from a file or the standard
// input.
func (a *app) asked() string {
	if a.key == "" {
		return ""
	}
	sum := sha256.New()
	for at := 0; at < len(a.args); at++ {
		name, _, joined := strings.Cut(a.args[at], "=")
		if takesValue, left := notAsked[name]; left {
			if takesValue && !joined {
				at++
			}
			continue
		}
		fmt.Fprintf(sum, "%q", a.args[at])
	}
	if slices.Contains(a.args, "import") {
		hashFiles(sum, a.args)
	}
	for _, line := range a.heard {
		fmt.Fprintf(sum, "%q", line)
	}
	return fmt.Sprintf("%x", sum.Sum(nil)[:8])
}

// hashFiles adds what is in the files that are named.
func hashFiles(sum io.Writer, names []string) {
	for _, name := range names {
		if info, err := os.Stat(name); err != nil || !info.Mode().IsRegular() {
			continue
		}
		if f, err := os.Open(name); err == nil {
			io.Copy(sum, f) // what can't be read is no import either
			f.Close()
		}
	}
}
