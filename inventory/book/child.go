package book

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os/exec"
)

// Verify runs VerifyHere in a process of its own, so that not even a failing disk can
// take the caller down; the context limits its time. command is a program with its
// arguments that runs VerifyHere and writes the Report as JSON on its standard output.
func Verify(ctx context.Context, command string, arguments ...string) (Report, error) {
	var out, said bytes.Buffer
	child := exec.CommandContext(ctx, command, arguments...)
	child.Stdout, child.Stderr = &out, &said
	runErr := child.Run()
	var r Report
	if err := json.Unmarshal(out.Bytes(), &r); err == nil {
		return r, nil
	}
	if ctx.Err() != nil {
		return r, errors.Join(errors.New("verify did not come to an end in time: the disk may be failing; copy the folder to another one first"), ctx.Err())
	}
	return r, fmt.Errorf("verify ended without a report: %s: %w", bytes.TrimSpace(said.Bytes()), runErr)
}
