package server

import (
	"context"
	"errors"
	"io"
	"mime/multipart"
	"net/http"
	"strconv"
	"time"

	"rimward/internal/journal"
	"rimward/internal/photo"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// mostPhotos is how many pictures may come at once.
const mostPhotos = 10

// maxPhotos is how long a post of pictures may be: as many as may come, each
// as large as may be, and what stands around them.
const maxPhotos = mostPhotos*photo.MaxBytes + 1<<20

// newPhotos shows the form that adds photos to something.
func (s *Server) newPhotos(w http.ResponseWriter, r *http.Request, v visit) error {
	of, err := s.subject(r, journal.Noun(r.URL.Query().Get("of")), queryID(r, "id"))
	if err != nil {
		return err
	}
	return s.showNewPhotos(w, r, v, of, http.StatusOK, &upload{})
}

func (s *Server) showNewPhotos(w http.ResponseWriter, r *http.Request, v visit, of page.PhotoSubject, status int, up *upload) error {
	list, err := s.store.PhotosOf(r.Context(), of.Of, of.ID)
	if err != nil {
		return err
	}
	p := page.NewNewPhotosPage(of, list, up.kept, up.there, up.wrong)
	return s.render(w, r, status, s.frame(r, v.set, p.Title, of.Section), page.NewPhotos(p))
}

// upload is one post of pictures and what came of it.
type upload struct {
	fields map[string]string
	of     *page.PhotoSubject
	name   string // of the picture that is being read; "" between two
	count  int
	kept   int
	there  int // that were attached already
	wrong  []string
}

// addPhotos keeps pictures, each by itself: one that is refused takes no other
// with it.
func (s *Server) addPhotos(w http.ResponseWriter, r *http.Request, v visit) error {
	parts, err := r.MultipartReader()
	if err != nil {
		return errBadRequest
	}
	// A phone on a slow network may take minutes: no deadline but the size.
	answer := http.NewResponseController(w)
	_ = answer.SetReadDeadline(time.Time{})  // what cannot be set is not needed
	_ = answer.SetWriteDeadline(time.Time{}) // likewise
	up := &upload{fields: map[string]string{}}
	var tooMuch *http.MaxBytesError
	err = s.takeAll(r, parts, up)
	if errors.As(err, &tooMuch) && up.of != nil {
		up.wrong = append(up.wrong, page.TooMuchSent(up.name, int(tooMuch.Limit>>20)))
		return s.showNewPhotos(w, r, v, *up.of, http.StatusRequestEntityTooLarge, up)
	}
	if err != nil {
		return err
	}
	if up.count == 0 {
		up.wrong = append(up.wrong, "Choose a picture first.")
	}
	if len(up.wrong) > 0 {
		return s.showNewPhotos(w, r, v, *up.of, http.StatusUnprocessableEntity, up)
	}
	s.redirect(w, r, up.of.Back, page.PhotosSaid(up.kept, up.there))
	return nil
}

// takeAll reads the post part by part. What it is about must come before its
// pictures.
func (s *Server) takeAll(r *http.Request, parts *multipart.Reader, up *upload) error {
	for {
		part, err := parts.NextPart()
		if errors.Is(err, io.EOF) {
			return s.know(r, up)
		}
		if err != nil {
			return broken(err)
		}
		switch part.FormName() {
		case "of", "id":
			text, err := io.ReadAll(io.LimitReader(part, 200))
			if err != nil {
				return broken(err)
			}
			up.fields[part.FormName()] = string(text)
		case "photos", "camera":
			if err := s.takeOne(r, part, up); err != nil {
				return err
			}
		}
	}
}

// know finds what the pictures show, once.
func (s *Server) know(r *http.Request, up *upload) error {
	if up.of != nil {
		return nil
	}
	id, err := strconv.ParseInt(up.fields["id"], 10, 64)
	if err != nil {
		return errBadRequest
	}
	of, err := s.subject(r, journal.Noun(up.fields["of"]), journal.ID(id))
	up.of = &of
	return err
}

// takeOne keeps one picture, or notes why it cannot be kept.
func (s *Server) takeOne(r *http.Request, part *multipart.Part, up *upload) error {
	if part.FileName() == "" {
		return nil // a box that was left empty
	}
	if err := s.know(r, up); err != nil {
		return err
	}
	if up.count++; up.count > mostPhotos {
		up.refused(part, "At most "+strconv.Itoa(mostPhotos)+" can be added at once.")
		return nil
	}
	up.name = part.FileName()
	there := false
	_, err := s.photos.Keep(r.Context(), part, func(k photo.Kept) (err error) {
		there, err = s.attach(lasting(r), *up.of, k)
		return err
	})
	var refused *photo.Refused
	var invalid *journal.InvalidError
	switch {
	case err == nil && there:
		up.there++
	case err == nil:
		up.kept++
	case errors.As(err, &refused):
		up.refused(part, refused.Sentence)
	case errors.As(err, &invalid):
		up.refused(part, invalid.Error())
	default:
		return broken(err)
	}
	up.name = ""
	return nil
}

func (up *upload) refused(part *multipart.Part, why string) {
	up.wrong = append(up.wrong, page.NotKept(part.FileName(), why))
}

// attach writes a kept picture into the journal. Sent twice it is attached
// once; there tells that it was attached already.
func (s *Server) attach(ctx context.Context, of page.PhotoSubject, k photo.Kept) (there bool, err error) {
	err = s.store.Write(ctx, func(tx *sqlite.Tx) error {
		x := journal.Photo{Of: of.Of, OfID: of.ID, Hash: k.Hash, Width: k.Width, Height: k.Height, At: tx.Now()}
		if _, there, err = tx.Attached(x); there || err != nil {
			return err
		}
		return tx.SavePhoto(&x)
	})
	return there, err
}

// broken turns the end of a connection, or a post that is no form, into a
// request that could not be read.
func broken(err error) error {
	var tooLarge *http.MaxBytesError
	if errors.As(err, &tooLarge) {
		return err
	}
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, multipart.ErrMessageTooLarge) || errors.Is(err, io.EOF) {
		return errBadRequest
	}
	return err
}
