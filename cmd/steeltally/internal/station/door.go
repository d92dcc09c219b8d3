package station

import (
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"net/url"
	"os"
	"path/filepath"
	"sync"
	"time"
)

// Offer is a way in, for one window.
type Offer struct {
	Book string // the folder of the book that is shown
	Link string
	Page string // a file for a browser that leads to the link; empty where it can't be kept
}

// doorTime is how long a station may take to say how one gets in.
const doorTime = 2 * time.Second

// door is a place of this account alone, beside this machine's settings, where a station
// hands over its link: in a page that a browser opens, and to a second start of the
// program. A link in the arguments of a program is read by everybody on the machine.
type door struct{ page, socket string }

// doorOf is the door of the station at a port.
func doorOf(machine, port string) door {
	if machine == "" {
		return door{}
	}
	folder := filepath.Join(filepath.Dir(machine), "station")
	return door{filepath.Join(folder, port+".html"), filepath.Join(folder, port+".door")}
}

// make makes the place, and clears what an earlier station left at it.
func (d door) make() error {
	if d.page == "" {
		return errors.New("this machine has no folder for settings")
	}
	folder := filepath.Dir(d.page)
	err := errors.Join(os.MkdirAll(folder, 0o700), os.Chmod(folder, 0o700), d.clear())
	old := os.Remove(filepath.Join(filepath.Dir(folder), "station.key")) // kept what let in by earlier programs
	if !errors.Is(old, fs.ErrNotExist) {
		err = errors.Join(err, old)
	}
	return err
}

func (d door) clear() error {
	var errs []error
	for _, file := range []string{d.page, d.socket} {
		if err := os.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
			errs = append(errs, err)
		}
	}
	return errors.Join(errs...)
}

// OpenDoor makes the place where links are handed over, and answers there until it is
// closed. Where it can't be made the link has to be typed.
func (s *Station) OpenDoor() (close func(), err error) {
	if err := s.door.make(); err != nil {
		s.door = door{}
		return func() {}, err
	}
	asked, err := net.Listen("unix", s.door.socket)
	if err == nil {
		err = os.Chmod(s.door.socket, 0o600)
		go s.answer(asked)
	}
	return func() {
		if asked != nil {
			asked.Close()
		}
		s.door.clear()
	}, err
}

// Offer makes a way in. An earlier link that was not used opens nothing any more.
func (s *Station) Offer() Offer {
	token := s.gate.link.fresh()
	o := Offer{Book: s.options.Desk.Book, Link: fmt.Sprintf("http://%s/?token=%s", s.gate.hosts[0], token)}
	if whole, err := filepath.Abs(o.Book); err == nil {
		o.Book = whole
	}
	if s.door.page == "" {
		return o
	}
	os.Remove(s.door.page)
	if err := writeOnce(s.door.page, forward(o.Link)); err == nil {
		o.Page = s.door.page
		s.gate.link.handedIn(token, o.Page)
	}
	return o
}

// forward is a page that leads to an address.
func forward(address string) string {
	return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="referrer" content="no-referrer">
<meta http-equiv="refresh" content="0; url=` + address + `">
<title>Steeltally</title>
<p><a href="` + address + `">the screen</a></p>
`
}

// writeOnce writes a file that is not there yet, for its owner alone.
func writeOnce(path, text string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = f.WriteString(text)
	return errors.Join(err, f.Close())
}

// Address is the address of a page on this disk, as a browser is told of it.
func (o Offer) Address() string { return (&url.URL{Scheme: "file", Path: o.Page}).String() }

// answer hands a way in to each start of the program that asks, until the listener closes.
func (s *Station) answer(asked net.Listener) {
	for {
		who, err := asked.Accept()
		if err != nil {
			return
		}
		who.SetDeadline(time.Now().Add(doorTime))
		json.NewEncoder(who).Encode(s.Offer())
		who.Close()
	}
}

// Ask gets a way in from the station of this account that runs at a port.
func Ask(machine, port string) (o Offer, err error) {
	who, err := net.DialTimeout("unix", doorOf(machine, port).socket, doorTime)
	if err != nil {
		return o, err
	}
	defer who.Close()
	who.SetDeadline(time.Now().Add(doorTime))
	return o, json.NewDecoder(who).Decode(&o)
}

// linkTime is how long a link opens the screen.
const linkTime = time.Minute

// link is what opens the screen: one at a time, once, and for a minute.
type link struct {
	now   func() time.Time
	mutex sync.Mutex
	token string
	given time.Time
	page  string // the file that it is handed over in
}

// fresh makes a token and takes the last one back.
func (l *link) fresh() string {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	l.drop()
	l.token, l.given = rand.Text(), l.now()
	return l.token
}

// take tells whether a token opens the screen, and uses it up.
func (l *link) take(token string) bool {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	if !same(token, l.token) {
		return false
	}
	age := l.now().Sub(l.given)
	l.drop()
	return age >= 0 && age < linkTime
}

// handedIn notes the file that a token is handed over in, which goes when the token does.
func (l *link) handedIn(token, page string) {
	l.mutex.Lock()
	l.page = page
	l.mutex.Unlock()
	time.AfterFunc(linkTime, func() { l.end(token) })
}

// end takes a token back, if it is still the last one.
func (l *link) end(token string) {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	if same(token, l.token) {
		l.drop()
	}
}

func (l *link) drop() {
	if l.page != "" {
		os.Remove(l.page)
	}
	l.token, l.page = "", ""
}
