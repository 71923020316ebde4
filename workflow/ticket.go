package workflow

import (
	"fmt"
	"strconv"
	"strings"

	"drillstop/calc"
)

// Ticket is the number of a job, and what is printed on its sheet: T-0417.
type Ticket int64

// String prints the ticket with at least four digits.
func (t Ticket) String() string { return fmt.Sprintf("T-%04d", int64(t)) }

// MarshalText writes the ticket as it is printed.
func (t Ticket) MarshalText() ([]byte, error) { return []byte(t.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (t *Ticket) UnmarshalText(text []byte) error {
	parsed, err := ParseTicket(string(text))
	if err != nil {
		return err
	}
	*t = parsed
	return nil
}

// ParseTicket reads "T-0417", "t0417" or "417". It fails with the code
// "ticket.number" on anything else.
func ParseTicket(typed string) (Ticket, error) {
	digits := strings.TrimSpace(typed)
	if rest, ok := strings.CutPrefix(strings.ToUpper(digits), "T"); ok {
		digits = strings.TrimPrefix(rest, "-")
	}
	n, err := strconv.ParseUint(digits, 10, 32)
	if err != nil || n == 0 {
		return 0, calc.Faultf("ticket.number", "%q is not a ticket number; one looks like T-0417 or 417.", typed)
	}
	return Ticket(n), nil
}
