package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// The scripts run with a print system of their own: lp and lpstat that answer as CUPS
// 2.4.2 does, for one queue, bench. PRINTER says how it is: ready, stopped, refusing,
// or down for a server that does not answer. What lp is given lies in the folder spool.

func lpForScript() {
	if queue := argumentOf("-d"); queue != "bench" || os.Getenv("PRINTER") == "down" {
		sayAndExit("lp: Error - The printer or class does not exist.", 1)
	}
	document, err := io.ReadAll(os.Stdin)
	if err != nil {
		sayAndExit(err.Error(), 1)
	}
	jobs, _ := filepath.Glob("spool/*.pdf")
	job := len(jobs) + 1
	os.MkdirAll("spool", 0o777)
	os.WriteFile(fmt.Sprintf("spool/%d.pdf", job), document, 0o666)
	os.WriteFile(fmt.Sprintf("spool/%d.options", job), []byte(strings.Join(os.Args[1:], " ")), 0o666)
	fmt.Printf("request id is bench-%d (0 file(s))\n", job)
}

func lpstatForScript() {
	state := os.Getenv("PRINTER")
	switch {
	case slices.Contains(os.Args, "-r"):
		if state == "down" {
			sayAndExit("scheduler is not running", 0)
		}
		sayAndExit("scheduler is running", 0)
	case argumentOf("-p") != "bench" || state == "down":
		sayAndExit(fmt.Sprintf("lpstat: Invalid destination name in list %q.", argumentOf("-p")), 1)
	case state == "stopped":
		sayAndExit("printer bench disabled since Wed Nov 26 09:00:00 2025 -\n\tout of labels\nbench accepting requests since Wed Nov 26 09:00:00 2025", 0)
	case state == "refusing":
		sayAndExit("printer bench is idle.  enabled since Wed Nov 26 09:00:00 2025\n\tRejecting Jobs\nbench not accepting requests since Wed Nov 26 09:00:00 2025 -\n\tRejecting Jobs", 0)
	}
	sayAndExit("printer bench is idle.  enabled since Wed Nov 26 09:00:00 2025\nbench accepting requests since Wed Nov 26 09:00:00 2025", 0)
}

// argumentOf is what stands behind a flag on the command line.
func argumentOf(flag string) string {
	at := slices.Index(os.Args, flag)
	if at < 0 || at+1 == len(os.Args) {
		return ""
	}
	return os.Args[at+1]
}

func sayAndExit(text string, code int) {
	fmt.Println(text)
	os.Exit(code)
}
