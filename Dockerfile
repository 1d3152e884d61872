# syntax=docker/dockerfile:1
# Rimward in a container: one static binary, no shell, not root. The journal
# lives in the volume /data. Inside the container it listens on every address,
# so publish the port on loopback only, unless everyone on your network may
# read and write the journal:
#   docker run -v rimward:/data -p 127.0.0.1:7373:7373 rimward
FROM golang:1.26 AS build
WORKDIR /src
COPY go.mod go.sum ./
RUN --mount=type=cache,target=/go/pkg/mod go mod download
COPY . .
RUN --mount=type=cache,target=/go/pkg/mod --mount=type=cache,target=/root/.cache/go-build \
    CGO_ENABLED=0 go build -trimpath -ldflags='-s -w' -o /out/rimward ./cmd/rimward && mkdir -p /out/data/tmp

FROM scratch
COPY --from=build /out/rimward /rimward
COPY --from=build --chown=65532:65532 /out/data /data
USER 65532:65532
ENV TMPDIR=/data/tmp
VOLUME /data
EXPOSE 7373
HEALTHCHECK --interval=30s --timeout=3s CMD ["/rimward", "healthcheck", "--addr", "127.0.0.1:7373"]
ENTRYPOINT ["/rimward"]
CMD ["serve", "--addr", "0.0.0.0:7373", "--data", "/data", "--no-open"]
