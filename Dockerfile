# A club's server: debriefs of many rides without a window. PDF pages want a browser: --build-arg BROWSER=chromium
#   docker build -t followcar .
#   docker run --rm -v "$PWD/rides:/rides" followcar debrief --batch /rides --share 1/2
FROM node:22-trixie-slim
ARG BROWSER=""
RUN apt-get update -qq \
  && apt-get install -y -qq --no-install-recommends ffmpeg ${BROWSER} \
  && rm -rf /var/lib/apt/lists/*
WORKDIR /opt/followcar
COPY package.json package-lock.json .npmrc tsconfig.json LICENSE ./
COPY main main
COPY overlay overlay
COPY renderer renderer
COPY assets assets
# ffmpeg is Debian's; nothing else is fetched, and no install script runs.
ENV FOLLOWCAR_FFMPEG=/usr/bin/ffmpeg FOLLOWCAR_FFPROBE=/usr/bin/ffprobe
RUN node main/setup/setup.mjs --no-browser && chown -R node /opt/followcar/dist
USER node
ENTRYPOINT ["node", "/opt/followcar/dist/followcar.mjs"]
CMD ["--help"]
