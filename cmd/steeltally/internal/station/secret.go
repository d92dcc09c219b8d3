package station

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// secretName is the file beside this machine's settings that keeps what is in the cookie,
// so that a page that is open stays let in when the program is started anew.
const secretName = "station.key"

// Unlock makes the token of the link, anew each time, and finds the secret of the cookie.
func (o *Options) Unlock() error {
	o.Token, o.Secret = rand.Text(), rand.Text()
	if o.Desk.Machine == "" {
		return nil
	}
	file := filepath.Join(filepath.Dir(o.Desk.Machine), secretName)
	kept, err := os.ReadFile(file)
	if secret := strings.TrimSpace(string(kept)); err == nil && len(secret) >= len(o.Secret) {
		o.Secret = secret
		return nil
	}
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("the station's key can't be read: %w", err)
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return fmt.Errorf("the station's key can't be kept: %w", err)
	}
	if err := os.WriteFile(file, []byte(o.Secret+"\n"), 0o600); err != nil {
		return fmt.Errorf("the station's key can't be kept: %w", err)
	}
	return nil
}
