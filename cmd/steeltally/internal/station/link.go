package station

import (
	"crypto/rand"
	"os"
	"sync"
	"time"
)

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
