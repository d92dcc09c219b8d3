//go:build outside

package labels_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// read is every text that ZXingReader, zbarimg and dmtxread find in a picture. For a
// Data Matrix, which ZXingReader finds only across the middle of a picture, it is
// given overlapping strips too.
func (p *photo) read(t *testing.T) map[string]bool {
	folder, found := t.TempDir(), map[string]bool{}
	whole := p.save(t, filepath.Join(folder, "tag.pgm"), 0, 0, p.width, p.height)
	files := []string{whole}
	const strips = 5
	height := p.height * 2 / 5
	for i := range strips {
		top := (p.height - height) * i / (strips - 1)
		for half, left := range []int{0, p.width / 2} {
			files = append(files, p.save(t, filepath.Join(folder, fmt.Sprintf("strip%d%d.pgm", i, half)), left, top, p.width-left, height))
		}
	}
	quoted := regexp.MustCompile(`(?m) (?:QRCode|DataMatrix) "(.*)"$`)
	for _, match := range quoted.FindAllSubmatch(output(t, "ZXingReader", append([]string{"-1", "-format", "QRCode,DataMatrix"}, files...)...), -1) {
		found[string(match[1])] = true
	}
	for _, lines := range [][]byte{
		output(t, "zbarimg", "-q", "--raw", "-Sdisable", "-Sqrcode.enable", whole),
		output(t, "dmtxread", "-n", "-N", "1", "-m", "400", whole),
	} {
		for _, line := range strings.Fields(string(lines)) {
			found[line] = true
		}
	}
	return found
}

// output is what a reader prints. A reader that finds nothing says so with its exit
// code, which is no error here; one that cannot be run is.
func output(t *testing.T, name string, arguments ...string) []byte {
	out, err := exec.Command(name, arguments...).Output()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Errorf("%s: %v", name, err)
	}
	return out
}

// save writes a part of a picture as PGM and gives back the file's name.
func (p *photo) save(t *testing.T, file string, left, top, width, height int) string {
	var out bytes.Buffer
	fmt.Fprintf(&out, "P5\n%d %d\n255\n", width, height)
	for y := top; y < top+height; y++ {
		for x := left; x < left+width; x++ {
			out.WriteByte(byte(p.level[y*p.width+x] + 0.5))
		}
	}
	if err := os.WriteFile(file, out.Bytes(), 0o600); err != nil {
		t.Error(err)
	}
	return file
}
